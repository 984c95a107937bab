import { expect, test } from "vitest";
import { centred, mean, variance } from "../../../src/signal/index.ts";
import { expectNear, noise } from "../support.ts";

test.each([1, 2, 3, 4, 5, 6, 7, 103])("mean of %i values is their sum over their count", (count) => {
  const values = noise(3, count);
  let sum = 0;
  for (const value of values) sum += value;
  expectNear(mean(values), sum / count, 1e-14);
});

test.each([2, 3, 4, 103])(
  "variance of %i values is that of squares about the mean, which centred values have at 0",
  (count) => {
    const values = noise(4, count).map((value) => 7 + value);
    const about = centred(values);
    expect(Math.abs(mean(about))).toBeLessThan(1e-14);
    let squares = 0;
    for (const value of about) squares += value ** 2;
    expectNear(variance(values), squares / (count - 1), 1e-13);
  },
);

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])("%d is named with its place", (bad) => {
  for (let at = 0; at < 7; at++) {
    const values = new Float64Array(7);
    values[at] = bad;
    const words = `values: every value must be finite, got ${bad} at index ${at};`;
    expect(() => mean(values)).toThrow(words);
    expect(() => variance(values)).toThrow(words);
  }
});

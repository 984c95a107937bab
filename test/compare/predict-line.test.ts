import { expect, test } from "vitest";
import { predictLine } from "../../src/compare/index.ts";

const x = [16, 16, 49, 49, 100, 100, 196, 196];
const y = [0.5, 0.49, 0.47, 0.48, 0.42, 0.43, 0.31, 0.33];
const even = x.map(() => 1);

test("predictLine gives the prediction interval of the mean of two new values (SciPy 1.17.1 linregress and t)", () => {
  const made = predictLine(x, y, even, 324, { weightAt: 1, looks: 2 })!;
  expect(made.value).toBeCloseTo(0.196630571440159, 12);
  expect(made.low).toBeCloseTo(0.16807789483393767, 10);
  expect(made.high).toBeCloseTo(0.22518324804638032, 10);
});

test("a weight of two stands for the point taken twice", () => {
  const doubled = predictLine([...x, 196], [...y, 0.33], [...even, 1], 324, { weightAt: 1, looks: 1 })!;
  const weighted = predictLine(x, y, [1, 1, 1, 1, 1, 1, 1, 2], 324, { weightAt: 1, looks: 1 })!;
  expect(weighted.value).toBeCloseTo(doubled.value, 12);
  expect(weighted.slope).toBeCloseTo(doubled.slope, 12);
});

test("fewer than three different speeds foretell nothing", () => {
  expect(predictLine([1, 1, 4, 4], [1, 2, 3, 4], [1, 1, 1, 1], 9, { weightAt: 1, looks: 1 })).toBeNull();
  expect(predictLine([1, 4, 9], [1, 2, 3], [1, 1, 1], 16, { weightAt: 1, looks: 1 })).toBeNull();
});

import fc from "fast-check";
import { expect, test } from "vitest";
import { resample, type Series, stretchesOf } from "../../src/log/index.ts";
import { numbers } from "../support/index.ts";

const sampled = (
  rate: number,
  seconds: number,
  of: (t: number) => number,
  pause = { at: Infinity, lasts: 0 },
): Series => {
  const time = numbers(Math.round(rate * seconds) + 1, (i) => i / rate + (i / rate > pause.at ? pause.lasts : 0));
  return { time, values: time.map(of) };
};
const sine = (frequency: number) => (t: number) => Math.sin(2 * Math.PI * frequency * t);
const rms = (values: Float64Array) => Math.hypot(...values) / Math.sqrt(values.length);

test("stretchesOf cuts at gaps and keeps every sample", () => {
  const series = sampled(100, 10, (t) => t, { at: 4, lasts: 1 });
  expect(stretchesOf(series)).toEqual([
    { from: 0, to: 401 },
    { from: 401, to: 1001 },
  ]);
  expect(stretchesOf(series, 2)).toEqual([{ from: 0, to: 1001 }]);
  expect(stretchesOf(series, [{ start: 2, end: 2.01 }])).toEqual([
    { from: 0, to: 201 },
    { from: 201, to: 1001 },
  ]);
  expect(stretchesOf({ time: new Float64Array(0), values: new Float64Array(0) })).toEqual([]);
});

test("stretches tile the samples, whatever the times", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0.001, max: 5, noNaN: true }), { minLength: 1, maxLength: 50 }), (steps) => {
      let now = 0;
      const time = Float64Array.from(steps, (step) => (now += step));
      const stretches = stretchesOf({ time, values: time }, 1);
      expect(stretches.flatMap(({ from, to }) => numbersFrom(from, to))).toEqual(numbersFrom(0, time.length));
    }),
  );
});

const numbersFrom = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => from + i);

test("a straight line stays a straight line at any higher rate", () => {
  const [piece, ...more] = resample(
    sampled(50, 4, (t) => 3 * t - 1),
    173,
  );
  expect(more).toEqual([]);
  expect(piece!.values).toHaveLength(Math.floor(4 * 173) + 1);
  piece!.values.forEach((value, i) => {
    expect(value).toBeCloseTo((3 * i) / 173 - 1, 9);
  });
});

test("at its own rate a series comes back as it is", () => {
  const series = sampled(250, 2, sine(3));
  expect(resample(series, 250)[0]!.values.map((value) => Number(value.toFixed(9)))).toEqual(
    series.values.map((value) => Number(value.toFixed(9))),
  );
});

test("nothing is drawn across a gap: each stretch is a piece that starts on the log's own clock", () => {
  const pieces = resample(
    sampled(100, 10, (t) => (t < 5 ? 0 : 1000), { at: 4, lasts: 3 }),
    100,
  );
  expect(pieces.map(({ start }) => start)).toEqual([0, 7.01]);
  expect(pieces[0]!.values.every((value) => value === 0)).toBe(true);
  expect(pieces[1]!.values.every((value) => value === 1000)).toBe(true);
});

test("on the way down, motion above half the new rate does not fold: 90 Hz leaves less than 1 % at 100 Hz", () => {
  const [piece] = resample(sampled(1000, 10, sine(90)), 100);
  // The first and last half second hold the transient of the low-pass.
  expect(rms(piece!.values.slice(50, -50))).toBeLessThan(0.01 * Math.SQRT1_2);
});

test("on the way down, slow motion stays: 5 Hz keeps its amplitude within 1 % at 100 Hz", () => {
  const [piece] = resample(sampled(1000, 10, sine(5)), 100);
  expect(rms(piece!.values.slice(50, -50))).toBeCloseTo(Math.SQRT1_2, 2);
  expect(piece!.rate).toBe(100);
});

test("a jittering clock does not bend a line", () => {
  const time = numbers(500, (i) => i / 100 + 0.002 * Math.sin(i * 1.7));
  const [piece] = resample({ time, values: time.map((t) => 2 * t) }, 100);
  piece!.values.forEach((value, i) => {
    expect(value).toBeCloseTo(2 * (piece!.start + i / 100), 9);
  });
});

test("a stretch of one sample, or one too short for the low-pass, gives no piece", () => {
  expect(resample({ time: Float64Array.of(1), values: Float64Array.of(2) }, 10)).toEqual([]);
  expect(
    resample(
      sampled(1000, 0.02, (t) => t),
      100,
    ),
  ).toEqual([]);
});

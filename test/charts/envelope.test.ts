import fc from "fast-check";
import { expect, test } from "vitest";
import { envelope } from "../../src/charts/index.ts";
import type { Series } from "../../src/log/channel.ts";

const seriesOf = (values: readonly number[], rate = 100): Series => ({
  time: Float64Array.from(values, (_, index) => index / rate),
  values: Float64Array.from(values),
});

const anySeries = fc
  .array(fc.tuple(fc.double({ min: 1e-4, max: 1, noNaN: true }), fc.double({ noNaN: true, noDefaultInfinity: true })), {
    minLength: 1,
    maxLength: 400,
  })
  .map((steps): Series => {
    let now = 0;
    return {
      time: Float64Array.from(steps, ([step]) => {
        now += step;
        return now;
      }),
      values: Float64Array.from(steps, ([, value]) => value),
    };
  });

test("envelope(series, span, columns) keeps the least and the greatest value of every span", () => {
  fc.assert(
    fc.property(anySeries, fc.integer({ min: 1, max: 50 }), (series, columns) => {
      const span = { start: 0, end: series.time[series.time.length - 1]! };
      const { value } = envelope(series, span, columns);
      expect(Math.min(...value)).toBe(Math.min(...series.values));
      expect(Math.max(...value)).toBe(Math.max(...series.values));
    }),
  );
});

test("envelope returns samples of the series at their own times, in order, each once, and not many", () => {
  fc.assert(
    fc.property(anySeries, fc.integer({ min: 1, max: 50 }), (series, columns) => {
      const { time, value } = envelope(series, { start: 0, end: 1e3 }, columns);
      const place = new Map([...series.time].map((at, index) => [at, series.values[index]!]));
      expect(value).toEqual(time.map((at) => place.get(at)));
      expect([...time].sort((a, b) => a - b)).toEqual(time);
      expect(new Set(time).size).toBe(time.length);
      expect(time.length).toBeLessThanOrEqual(2 * columns + 2);
    }),
  );
});

test("a spike of one sample in ten minutes at 1000 Hz is still there", () => {
  const values = new Float64Array(600_000);
  values[412_345] = 7;
  const series = { time: Float64Array.from(values, (_, index) => index / 1000), values };
  const { time, value } = envelope(series, { start: 0, end: 600 }, 900);
  expect(value).toContain(7);
  expect(time[value.indexOf(7)]).toBe(412.345);
  expect(time.length).toBeLessThan(1803);
});

test("a short span comes back whole", () => {
  const series = seriesOf([3, 1, 2, 5]);
  expect(envelope(series, { start: 0, end: 1 }, 2).value).toEqual([3, 1, 2, 5]);
});

test("a span without samples gives nothing", () => {
  expect(envelope(seriesOf([1, 2]), { start: 5, end: 6 }, 10)).toEqual({ time: [], value: [] });
});

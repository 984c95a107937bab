import { expect, test } from "vitest";
import { frozenFrom } from "../../../src/log/clock/frozen-from.ts";
import { stuckSpans } from "../../../src/log/clock/stuck-spans.ts";
import type { Series } from "../../../src/log/index.ts";
import { numbers } from "../../support/index.ts";

const RATE = 100;
const N = 2000;
/** A lively motion: two tones, never twice the same value in a row. */
const lively = (i: number) => Math.sin(i / 9) + 0.3 * Math.sin(i / 2.3);
const series = (of: (i: number) => number): Series => ({ time: numbers(N, (i) => i / RATE), values: numbers(N, of) });
const others = [series((i) => Math.cos(i / 7))];
const held =
  (from: number, to: number, of = lively) =>
  (i: number) =>
    of(i >= from && i < to ? from : i);

test("a rate that keeps one value for 2 s while the aircraft moves on is stuck from the first to the last such sample", () => {
  expect(stuckSpans(series(held(600, 801)), [], others)).toEqual([{ start: 6, end: 8 }]);
});

test("a lively rate is not stuck, nor is one held for 0.3 s", () => {
  expect(stuckSpans(series(lively), [], others)).toEqual([]);
  expect(stuckSpans(series(held(600, 631)), [], others)).toEqual([]);
});

test("a coarsely quantised slow angle rests by habit and is not stuck", () => {
  const coarse = series((i) => Math.round(4 * Math.sin(i / 300)) / 4);
  expect(stuckSpans(coarse, [], others)).toEqual([]);
});

test("standing still together with all else is not being stuck", () => {
  const still = held(600, 1400);
  expect(stuckSpans(series(still), [], [series((i) => (i >= 600 && i < 1400 ? 0 : Math.cos(i / 7)))])).toEqual([]);
});

test("zeros before the sensor begins to speak are not stuck; a column of zeros is, from end to end", () => {
  expect(
    stuckSpans(
      series((i) => (i < 500 ? 0 : lively(i))),
      [],
      others,
    ),
  ).toEqual([]);
  expect(
    stuckSpans(
      series(() => 0),
      [],
      others,
    ),
  ).toEqual([{ start: 0, end: (N - 1) / RATE }]);
});

test("a gap ends a still run", () => {
  const gaps = [{ start: 6.3, end: 6.31 }];
  expect(stuckSpans(series(held(600, 660)), gaps, others)).toEqual([]);
});

const motion = (of: (i: number) => number, isRate = true) => ({ series: series(of), isRate });

test("a log whose motion stops all at once while rows go on is frozen from the last change", () => {
  expect(frozenFrom([motion(held(1200, N)), motion(held(1200, N, Math.cos), false)])).toBe(12);
});

test("a log that changes to its end is not frozen", () => {
  expect(frozenFrom([motion(lively), motion(held(1200, N))])).toBeNull();
  expect(frozenFrom([])).toBeNull();
});

test("rates that come to rest at exactly zero are at rest, not frozen", () => {
  expect(frozenFrom([motion((i) => (i < 1200 ? lively(i) : 0)), motion(held(1200, N), false)])).toBeNull();
});

test("channels that stop one after the other are not frozen", () => {
  expect(frozenFrom([motion(held(1000, N)), motion(held(1600, N))])).toBeNull();
});

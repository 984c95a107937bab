import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { increasingRows } from "../../../src/log/clock/increasing-rows.ts";
import { rowClock } from "../../../src/log/clock/row-clock.ts";
import { samplingOf } from "../../../src/log/clock/sampling.ts";
import { loadLog } from "../../../src/log/index.ts";
import { csv, numbers, temporaryFolder } from "../../support/index.ts";

const folder = temporaryFolder();
const map = folder.write(
  "clock.channels.yaml",
  "time: { column: t, unit: s }\nchannels:\n  altitude: { column: h, unit: m }\n",
);
const load = (name: string, t: ArrayLike<number | string>, h: ArrayLike<number | string>) =>
  loadLog(folder.write(name, csv({ t, h })), { channels: map });

describe("increasingRows", () => {
  test("keeps every row of a clock that runs forward", () => {
    expect(increasingRows(Float64Array.of(1, 2, 2, 5))).toMatchObject({
      backwards: 0,
      firstBackwards: null,
      missing: 0,
    });
  });

  test("loses one row to one wild stamp, whichever way it points", () => {
    for (const wild of [-1e9, 1e9]) {
      const stamps = numbers(100, (i) => (i === 40 ? wild : i));
      const { kept, backwards } = increasingRows(stamps);
      expect([kept.length, backwards, kept.includes(40)]).toEqual([99, 1, false]);
    }
  });

  test("keeps the longer part of a clock that starts anew", () => {
    const stamps = Float64Array.of(...numbers(30, (i) => i), ...numbers(80, (i) => i / 100));
    const { kept, backwards, firstBackwards } = increasingRows(stamps);
    expect(kept.at(-1)).toBe(109);
    expect(firstBackwards).toBe(30);
    expect(backwards).toBeGreaterThanOrEqual(28);
  });

  test("never leaves a stamp below the one before it, and drops none without need", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.integer({ min: 0, max: 20 }), fc.constant(Number.NaN)), { maxLength: 40 }),
        (stamps) => {
          const { kept, backwards, missing } = increasingRows(Float64Array.from(stamps));
          const left = [...kept].map((row) => stamps[row]!);
          expect(left).toEqual([...left].sort((a, b) => a - b));
          expect(kept.length + backwards + missing).toBe(stamps.length);
          expect(kept.length).toBe(longestByBruteForce(stamps.filter((stamp) => !Number.isNaN(stamp))));
        },
      ),
    );
  });
});

/** Length of the longest non-decreasing subsequence, by the quadratic recurrence. */
function longestByBruteForce(stamps: readonly number[]): number {
  const best: number[] = [];
  stamps.forEach((stamp, at) => {
    best.push(1 + Math.max(0, ...best.filter((_, before) => stamps[before]! <= stamp)));
    expect(best).toHaveLength(at + 1);
  });
  return Math.max(0, ...best);
}

describe("samplingOf", () => {
  test("gives the rate of the median interval", () => {
    expect(samplingOf(numbers(1000, (i) => i / 250)).rate).toBeCloseTo(250, 6);
  });

  test("five lost samples are a gap, three are none", () => {
    const without = (...lost: number[]) => numbers(100, (i) => i / 50).filter((_, i) => !lost.includes(i));
    expect(samplingOf(without(40, 41, 42)).gaps).toEqual([]);
    expect(samplingOf(without(40, 41, 42, 43, 44)).gaps).toEqual([{ start: 39 / 50, end: 45 / 50 }]);
  });

  test("pauses below 10 ms are no gaps in a log of 4 kHz", () => {
    const time = numbers(4000, (i) => i / 4000 + (i >= 2000 ? 0.009 : 0));
    expect(samplingOf(time).gaps).toEqual([]);
  });

  test("jitter is the standard deviation of the spacing, and gaps do not count", () => {
    // Spacing 9 and 11 ms in turn: a standard deviation of 1 ms.
    const time = numbers(2001, (i) => i * 0.01 + (i % 2 === 1 ? 0.001 : 0) + (i >= 1000 ? 5 : 0));
    const { jitter, gaps, longestGap, covered } = samplingOf(time);
    expect(jitter).toBeCloseTo(0.001, 5);
    expect(gaps).toHaveLength(1);
    expect(longestGap).toBeCloseTo(5.01, 2);
    expect(covered).toBeCloseTo(20 - 0.01, 2);
  });

  test("a gap of the rows is a gap of the slow channel that spans it", () => {
    const slow = numbers(10, (i) => i);
    expect(samplingOf(slow).gaps).toEqual([]);
    expect(samplingOf(slow, [{ start: 4.2, end: 4.9 }]).gaps).toEqual([{ start: 4, end: 5 }]);
  });
});

test("rowClock counts from the first stamp and says where a stamp runs backwards", () => {
  const clock = rowClock(Float64Array.of(100, 200, 150, 300), 1e-3, "f", "t");
  expect([...clock.time].map((time) => Number(time.toFixed(9)))).toEqual([0, 0.1, 0.2]);
  expect([clock.backwards, clock.firstBackwards]).toEqual([1, 0.1]);
});

test("repeated stamps are dropped and counted, the first value stays", async () => {
  const log = await load("repeat.csv", [0, 1, 1, 1, 2], [5, 6, 7, 8, 9]);
  expect(log.clock.repeated).toBe(2);
  expect([...log.channels.get("altitude")!.series.values]).toEqual([5, 6, 9]);
});

test("rows that share a stamp and fill different cells are both kept", async () => {
  const log = await load("shared.csv", [0, 0, 1, 1, 2], ["", 5, 6, "", 7]);
  expect(log.clock.repeated).toBe(0);
  expect([...log.channels.get("altitude")!.series.values]).toEqual([5, 6, 7]);
});

test("backward stamps and rows without a stamp are dropped and counted", async () => {
  const log = await load("back.csv", [0, 1, 0.5, "", 2], [5, 6, 7, 8, 9]);
  expect(log.clock).toMatchObject({ backwards: 1, firstBackwards: 1, missing: 1 });
  expect([...log.channels.get("altitude")!.series.values]).toEqual([5, 6, 9]);
});

test("a gap in the rows is a gap of every channel, and lowers its coverage by as much", async () => {
  const t = numbers(1001, (i) => i / 100 + (i > 500 ? 10 : 0));
  const log = await load("gap.csv", t, t);
  const { gaps, coverage, longestGap } = log.channels.get("altitude")!;
  expect(gaps).toEqual([{ start: 5, end: 15.01 }]);
  expect(log.clock.gaps).toEqual(gaps);
  expect(longestGap).toBeCloseTo(10.01, 9);
  expect(coverage).toBeCloseTo((20 - 10.01) / 20, 6);
});

test("a stretch of NaN cells is a gap of that channel alone", async () => {
  const t = numbers(1001, (i) => i / 100);
  const log = await load(
    "nan.csv",
    t,
    Array.from(t, (time) => (time > 2 && time < 3 ? "nan" : String(time))),
  );
  expect(log.clock.gaps).toEqual([]);
  expect(log.channels.get("altitude")!.gaps).toEqual([{ start: 2, end: 3 }]);
});

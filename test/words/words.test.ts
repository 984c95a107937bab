import { expect, test } from "vitest";
import { findingName, findingWindow, mergeSpans } from "../../src/charts/index.ts";
import {
  countWords,
  displayUnit,
  durationWords,
  numberWords,
  percentWords,
  plainText,
  secondsWords,
} from "../../src/words/index.ts";

test.each([
  [1234.5, "1235"],
  [0.012345, "0.0123"],
  [-8.7654, "−8.77"],
  [2, "2"],
  [0, "0"],
  [-0.0000001, "−0.0000001"],
  [Number.NaN, "unknown"],
])("numberWords(%d) is %s", (value, words) => {
  expect(numberWords(value)).toBe(words);
});

test.each([
  [0, "0 %"],
  [0.0004, "less than 0.1 %"],
  [0.0123, "1.2 %"],
  [0.458, "46 %"],
  [-0.14, "−14 %"],
  [1, "100 %"],
])("percentWords(%d) is %s", (share, words) => {
  expect(percentWords(share)).toBe(words);
});

test("times and durations are said as people say them", () => {
  expect(secondsWords(144)).toBe("144.0 s");
  expect(secondsWords(0.081)).toBe("0.08 s");
  expect(durationWords(87.2)).toBe("87 s");
  expect(durationWords(240)).toBe("4 min");
  expect(durationWords(630.4)).toBe("10 min 30 s");
});

test("one of a thing is singular, none and several are plural", () => {
  expect([0, 1, 2].map((count) => countWords(count, "gap"))).toEqual(["0 gaps", "1 gap", "2 gaps"]);
});

test("angles are shown in degrees", () => {
  expect(displayUnit("rad/s").factor).toBeCloseTo(57.29578, 5);
  expect(displayUnit("rad/s").label).toBe("deg/s");
});

test("plainText removes what steers a terminal or turns the direction of writing, and says how much it cut", () => {
  expect(plainText("a\u001b[31mb\u0007\n\u202ec\u200f")).toBe("a [31mb c");
  expect(plainText("x".repeat(10_000), 20)).toBe(`${"x".repeat(20)}… (9980 more)`);
});

test("findingWindow gives a finding a quarter of its length on either side, inside the flight", () => {
  const whole = { start: 0, end: 100 };
  expect(findingWindow({ start: 40, end: 60 }, whole)).toEqual({ start: 35, end: 65 });
  expect(findingWindow({ start: 1, end: 2 }, whole)).toEqual({ start: 0, end: 8 });
  expect(findingWindow({ start: 99, end: 100 }, whole)).toEqual({ start: 92, end: 100 });
  expect(findingWindow({ start: 0, end: 100 }, whole)).toEqual(whole);
  expect(findingWindow({ start: 2, end: 3 }, { start: 0, end: 4 })).toEqual({ start: 0, end: 4 });
});

test("findingWindow shows a long finding in stretches at its longest one", () => {
  const stretches = [
    { start: 10, end: 11 },
    { start: 70, end: 90 },
  ];
  expect(findingWindow({ start: 10, end: 90, stretches }, { start: 0, end: 200 })).toEqual({ start: 65, end: 95 });
});

test("mergeSpans joins what overlaps and keeps the rest in order", () => {
  const spans = [
    { start: 5, end: 8 },
    { start: 0, end: 2 },
    { start: 1, end: 3 },
  ];
  expect(mergeSpans(spans)).toEqual([
    { start: 0, end: 3 },
    { start: 5, end: 8 },
  ]);
});

test("findings have names of a few words, also kinds that are new here", () => {
  expect(findingName({ kind: "oscillation", axis: "pitch" })).toBe("Pitch oscillation");
  expect(findingName({ kind: "motor-floor", motor: 2 })).toBe("Motor 2 at its floor");
  expect(findingName({ kind: "something-new" })).toBe("Something new");
});

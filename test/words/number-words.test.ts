import { expect, test } from "vitest";
import {
  countWords,
  displayUnit,
  durationWords,
  numberWords,
  percentWords,
  plainText,
  secondsWords,
  spanWords,
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

test("a span whose ends read alike says how long it was", () => {
  expect(spanWords({ start: 12, end: 14.5 })).toBe("12.0 s to 14.5 s");
  expect(spanWords({ start: 16.9, end: 16.91 })).toBe("at 16.9 s for 0.01 s");
  expect(spanWords({ start: 16.9, end: 16.902 })).toBe("at 16.9 s for less than 0.01 s");
  expect(spanWords({ start: 16.9, end: 16.9 })).toBe("at 16.9 s");
});

import { expect, test } from "vitest";
import { findingName, findingWindow, mergeSpans } from "../../src/charts/index.ts";

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

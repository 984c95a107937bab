import { expect, test } from "vitest";
import { measureName, measureWords } from "../../src/words/index.ts";

test.each([
  ["frequency", { value: 1.5213, unit: "Hz", low: 1.4876, high: 1.5512 }, "1.52 Hz (between 1.49 and 1.55 Hz)"],
  ["rms", { value: 0.021, unit: "rad/s", low: 0.02, high: 0.022 }, "1.20 deg/s (between 1.15 and 1.26 deg/s)"],
  ["share", { value: 0.0123, unit: "1" }, "1.2 %"],
  ["below", { value: 0.14, unit: "1", low: 0.12, high: 0.16 }, "14 % (between 12 and 16 %)"],
  ["excess", { value: 0.1624, unit: "1", low: 0.1601, high: 0.1647 }, "16 %"],
  ["episodes", { value: 9, unit: "1" }, "9"],
  ["sag", { value: 2.345678, unit: "V" }, "2.35 V"],
  ["growth", { value: 0.2, unit: "1/s", low: 0.1 }, "0.2 1/s (at least 0.1 1/s)"],
  ["peak", { value: 0.3, unit: "N*m", high: 0.4 }, "0.3 N·m (at most 0.4 N·m)"],
  [
    "speed-at-limit",
    { value: 14, unit: "m/s", low: 13, high: 16, level: 0.9 },
    "14 m/s (between 13 and 16 m/s, 90 % interval)",
  ],
  // 35 rad/s² a newton metre
  [
    "effectiveness",
    { value: 35, unit: "1/(kg*m^2)", low: 30, high: 41 },
    "2005 deg/s²/(N·m) (between 1719 and 2349 deg/s²/(N·m))",
  ],
] as const)("%s %j is said as %s", (key, estimate, words) => {
  expect(measureWords(key, estimate)).toBe(words);
});

test.each(["effectiveness", "motorLag", "motorDelay"])("the fitted %s has a name in words", (key) => {
  expect(measureName(key)).toMatch(/^[a-z][a-zN·, ]+, fitted$/);
  expect(measureName(key)).not.toContain(key);
});

test("the work of the motors says which sign feeds a swing", () => {
  expect(measureName("energy")).toContain("above 0 feeds it, below 0 brakes it");
});

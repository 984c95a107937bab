import { describe, expect, test } from "vitest";
import type { Forecast, NextStep } from "../../../src/compare/index.ts";
import { differenceWords } from "../../../src/findings/comparison/index.ts";
import { nextStepWords } from "../../../src/findings/comparison/next-step-words.ts";

const interval = (value: number, low: number, high: number, unit = "1") => ({ value, low, high, unit });

describe("differences in words", () => {
  test("a ratio is told in percent, from about twice on as a factor", () => {
    const row = { quantity: "power", unit: "W", scale: "ratio" } as const;
    expect(differenceWords({ ...row, difference: interval(-0.2417, -0.26, -0.22) })).toBe(
      "24 % less (between −26 and −22 %)",
    );
    // a pitch error that grows from about 1 to about 2 degrees (common practice)
    const error = { quantity: "error-rms", unit: "rad", scale: "ratio" } as const;
    expect(differenceWords({ ...error, difference: interval(1, 0.6, 1.5) })).toBe(
      "2 times as large (between 1.6 and 2.5 times)",
    );
  });

  test("a difference of shares is told in points, so that nobody takes it for a proportion", () => {
    const row = { quantity: "mean-command", unit: "1", scale: "difference" } as const;
    expect(differenceWords({ ...row, difference: interval(-0.07, -0.09, -0.05) })).toBe(
      "7.0 points less (between −9.0 and −5.0 points)",
    );
  });
});

const forecast = (over: Partial<Forecast>): Forecast => ({
  key: "damping",
  axis: "pitch",
  flown: 0.2,
  next: { value: 0.18, low: 0.12, high: 0.24 },
  coefficients: [0.3, -0.008],
  points: [],
  ...over,
});

const step = (forecasts: readonly Forecast[]): NextStep => ({
  speed: 18,
  fastest: 14,
  level: 0.9,
  forecasts,
  missing: ["authority"],
});

const flown = (findings: Parameters<typeof nextStepWords>[1]["findings"]) =>
  ({ findings }) as Parameters<typeof nextStepWords>[1];
const motorName = (motor: number) => `motor ${motor}`;

describe("the next step in words", () => {
  test("a trend above its limit with its whole interval is no evidence against, and no clearance", () => {
    const made = nextStepWords(step([forecast({})]), flown([]), motorName);
    expect(made.verdict).toBe("no-evidence-here");
    expect(made.statement).toContain("That is no clearance");
    expect(made.notExamined[0]).toContain("room to turn");
    expect(made.notExamined.length).toBeGreaterThan(2);
  });

  test("a trend below its limit is evidence against", () => {
    const made = nextStepWords(
      step([forecast({ next: { value: 0.01, low: -0.05, high: 0.07 } })]),
      flown([]),
      motorName,
    );
    expect(made.verdict).toBe("evidence-against");
    expect(made.reasons).toHaveLength(1);
  });

  test("an interval that reaches below the limit leaves it undecided, and so does no forecast at all", () => {
    const wide = forecast({ next: { value: 0.1, low: -0.02, high: 0.22 } });
    expect(nextStepWords(step([wide]), flown([]), motorName).verdict).toBe("not-enough-data");
    expect(nextStepWords(step([]), flown([]), motorName).verdict).toBe("not-enough-data");
  });

  test("a growing oscillation in the flight after speaks against whatever the trends say", () => {
    const warning = {
      id: "oscillation-pitch-1",
      kind: "oscillation",
      severity: "warning",
      start: 40,
      summary: "It grew.",
    };
    const made = nextStepWords(step([forecast({})]), flown([{ ...warning, severity: "warning" }]), motorName);
    expect(made.verdict).toBe("evidence-against");
    expect(made.reasons[0]).toContain("It grew.");
  });

  test("no trend of damping is told of an axis that swung in the flight after", () => {
    const swing = { id: "oscillation-pitch-1", kind: "oscillation", axis: "pitch", start: 40, summary: "It grew." };
    const made = nextStepWords(step([forecast({})]), flown([{ ...swing, severity: "warning" }]), motorName);
    expect(made.forecasts).toEqual([]);
    expect(made.notExamined.join()).toContain("damping of pitch: no trend over legs is told");
    const slight = nextStepWords(step([forecast({})]), flown([{ ...swing, severity: "advisory" }]), motorName);
    expect(slight.forecasts).toHaveLength(1);
  });

  test("what meets its limit at the lowest speed would be seen first", () => {
    const floor = forecast({
      key: "headroom-below",
      motor: 4,
      coefficients: [0.3, 0, -0.001],
      next: { value: 0.1, low: 0.06, high: 0.14 },
    });
    const made = nextStepWords(step([forecast({ coefficients: [0.3, -0.012] }), floor]), flown([]), motorName);
    expect(made.firstSeen[0]).toContain("Motor 4 on its floor");
    expect(made.firstSeen[1]).toContain("Pitch that swings on");
    // 0.3 - 0.001 v^2 = 0.05 at v = sqrt(250)
    expect(made.forecasts[1]!.speedAtLimit!).toBeCloseTo(Math.sqrt(250), 1);
  });
});

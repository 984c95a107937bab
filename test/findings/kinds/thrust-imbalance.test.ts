import { describe, expect, test } from "vitest";
import type { ThrustImbalanceEvidence } from "../../../src/detect/index.ts";
import { makeFindings } from "../../../src/findings/index.ts";

const estimate = (value: number, half = 0.005) => ({ value, unit: "1", low: value - half, high: value + half });

function evidence(values: readonly number[], changes: Partial<ThrustImbalanceEvidence> = {}): ThrustImbalanceEvidence {
  return {
    kind: "thrust-imbalance",
    pattern: "single-motor",
    motor: 3,
    motors: [3],
    alternatives: [],
    from: "command",
    condition: { kind: "hover", speed: 0, step: null, direction: null, spans: [{ start: 5, end: 25 }] },
    isAgainstBaseline: false,
    start: 5,
    end: 25,
    confidence: 0.9,
    measures: {
      "cg-forward": { value: -0.004, unit: "m", low: -0.005, high: -0.003 },
      "cg-right": { value: 0.002, unit: "m", low: 0.001, high: 0.003 },
      "spin-bias": estimate(0.01),
      loss: estimate(0.12),
    },
    perMotor: { excess: values.map((value, i) => ({ motor: i + 1, ...estimate(value) })) },
    ...changes,
  };
}

const findingOf = (made: ThrustImbalanceEvidence) =>
  makeFindings({ evidence: [made], motorName: (m) => `motor ${m} (rear right)`, phaseName: ({ kind }) => kind })[0]!;

describe("alert level of a thrust imbalance", () => {
  test.each([
    [0.04, false, "note"],
    [0.06, false, "advisory"],
    [0.16, false, "caution"],
    [0.09, true, "caution"],
    [0.31, false, "warning"],
  ])("an excess of %d (against a baseline: %s) is %s", (value, isAgainstBaseline, level) => {
    expect(findingOf(evidence([0, 0, value, 0], { isAgainstBaseline })).severity).toBe(level);
  });

  test("an excess whose interval holds zero does not count", () => {
    const perMotor = { excess: [1, 2, 3, 4].map((motor) => ({ motor, ...estimate(motor === 3 ? 0.2 : 0, 0.3) })) };
    expect(findingOf(evidence([], { perMotor })).severity).toBe("note");
  });
});

describe("words of a thrust imbalance", () => {
  test("name the motor, its excess with its interval and the loss", () => {
    const { summary, motor, measures } = findingOf(evidence([0, 0, 0.12, 0]));
    expect(summary).toContain("Motor 3 (rear right) is asked for 12 % (between 12 and 13 %) more thrust");
    expect(summary).toContain("as if it had lost 12 %");
    expect(motor).toBe(3);
    expect(measures.excess).toHaveLength(4);
  });

  test("send people to the propeller first and to calibration last, and never to trim a fault away", () => {
    const { next, cautions } = findingOf(evidence([0, 0, 0.12, 0]));
    expect(next[0]).toMatch(/battery disconnected.*propeller/);
    expect(next[4]).toMatch(/calibration/);
    expect(cautions[0]).toMatch(/mechanical cause first/);
  });

  test("say which patterns look alike and which test would tell", () => {
    const { meaning, next, alternatives } = findingOf(
      evidence([0, 0, 0.12, 0], { alternatives: ["spin-pair", "centre-of-gravity"] }),
    );
    expect(alternatives).toEqual(["spin-pair", "centre-of-gravity"]);
    expect(meaning).toMatch(/does not tell it from a twisted motor.*, or a centre of gravity/);
    expect(next.join(" ")).toMatch(/swap two propellers of the same type and rotation/);
    expect(next.join(" ")).toMatch(/weigh the aircraft on the ends of its arms/);
  });
});

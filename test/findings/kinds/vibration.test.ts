import { describe, expect, test } from "vitest";
import type { VibrationEvidence } from "../../../src/detect/index.ts";
import { makeFindings } from "../../../src/findings/index.ts";

function findingOf(changes: Partial<VibrationEvidence>) {
  const evidence: VibrationEvidence = {
    kind: "vibration",
    motor: 2,
    channel: "acceleration.x",
    from: "speed",
    order: 1,
    start: 5,
    end: 25,
    confidence: 0.9,
    measures: {
      frequency: { value: 88, unit: "Hz" },
      amplitude: { value: 0.4, unit: "m/s^2" },
      "over-others": { value: 3, unit: "1" },
    },
    perMotor: {},
    ...changes,
  };
  return makeFindings({
    evidence: [evidence],
    motorName: (motor) => `motor ${motor}`,
    phaseName: ({ kind }) => kind,
  })[0]!;
}

describe("words of a vibration", () => {
  test("say how often per turn where the rotor's speed tells it, and what else comes per turn", () => {
    const { summary, meaning } = findingOf({
      measures: {
        frequency: { value: 88, unit: "Hz" },
        amplitude: { value: 0.4, unit: "m/s^2" },
        "over-others": { value: 3, unit: "1" },
        "amplitude-2": { value: 0.1, unit: "m/s^2" },
      },
    });
    expect(summary).toBe(
      "Motor 2 shakes the aircraft once per turn, at 88 Hz: 0.4 m/s² in acceleration.x, 3 times as much as the middle of all motors.",
    );
    expect(meaning).toMatch(/also shakes 2 times per turn with 0.1 m\/s²/);
  });

  test("leave open how often per turn where only the command is known", () => {
    const { summary, meaning, severity } = findingOf({
      from: "command",
      order: null,
      measures: { frequency: { value: 88, unit: "Hz" }, amplitude: { value: 0.4, unit: "m/s^2" } },
    });
    expect(summary).toBe(
      "Motor 2 shakes the aircraft at 88 Hz, a tone that rises and falls with its command: 0.4 m/s² in acceleration.x.",
    );
    expect(meaning).toMatch(/stays open whether the shake comes once per turn or once per blade/);
    expect(severity).toBe("advisory");
  });

  test("more than half a g is a caution", () => {
    expect(
      findingOf({
        measures: { frequency: { value: 88, unit: "Hz" }, amplitude: { value: 6, unit: "m/s^2" } },
        from: "command",
        order: null,
      }).severity,
    ).toBe("caution");
  });
});

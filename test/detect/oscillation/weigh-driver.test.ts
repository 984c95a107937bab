import { describe, expect, test } from "vitest";
import type { DriveMeasures } from "../../../src/detect/oscillation/drive-measures.ts";
import type { SidePull } from "../../../src/detect/oscillation/side-pull.ts";
import { weighDriver } from "../../../src/detect/oscillation/weigh-driver.ts";

/** Measures with the given ratio of moment to motion, known to a factor of 1.6 and 0.12 rad. */
function drive(share: number, phase: number): Pick<DriveMeasures, "phase" | "share" | "coherence"> {
  return {
    phase: { value: phase, unit: "rad", low: phase - 0.12, high: phase + 0.12 },
    share: { value: share, unit: "1", low: share / 1.6, high: share * 1.6 },
    coherence: 0.98,
  };
}

const pull = (value: number): SidePull => ({
  size: { value, unit: "1", low: value * 0.9, high: value * 1.1 },
  coherence: 0.95,
});

describe("what a ratio of moment to motion says", () => {
  test("a loop whose moments make the motion drives itself", () => {
    expect(weighDriver("pitch", drive(1, 0), 2, false, false)).toMatchObject({
      driver: "controller",
      reason: "moment-balance",
    });
  });

  test("moments that brake are pushed against", () => {
    expect(weighDriver("pitch", drive(0.8, -1.2), 2, false, false)).toMatchObject({
      driver: "external",
      reason: "energy-flow",
    });
  });

  test("a slow swing with a strong pull from the side is a load, whatever the motors do; about yaw it is none", () => {
    expect(weighDriver("pitch", drive(4, -0.3), 0.5, false, false, pull(1.5)).driver).toBe("coupled");
    expect(weighDriver("pitch", null, 0.5, false, false, pull(1.5))).toMatchObject({
      driver: "coupled",
      reason: "side-pull",
    });
    expect(weighDriver("yaw", drive(9, 0), 0.5, false, false).driver).not.toBe("coupled");
  });

  test("without a pull from the side a slow swing is no load", () => {
    expect(weighDriver("pitch", drive(9, 0.4), 0.5, false, false, pull(0.02)).driver).not.toBe("coupled");
  });

  test("moments many times the motion, in step with it while it grows, hold against the airframe's own tipping", () => {
    expect(weighDriver("pitch", drive(6, 0), 0.5, false, true, pull(0.05))).toMatchObject({
      driver: "controller",
      reason: "held-against",
    });
    expect(weighDriver("pitch", drive(6, 0), 0.5, false, false, pull(0.05)).driver).not.toBe("external");
  });
});

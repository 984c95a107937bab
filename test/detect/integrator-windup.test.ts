import { describe, expect, test } from "vitest";
import { integratorWindup } from "../../src/detect/index.ts";
import { BUILT_IN_AIRCRAFT, type ScenarioInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

const AXES = ["roll", "pitch", "yaw"] as const;
const integrators = AXES.map((axis) => `rate.${axis}.integrator`);
const outputs = AXES.map((axis) => `rate.${axis}.output`);

const flight = (changes: Partial<ScenarioInput>, omit: string[] = []) =>
  simulatedFlight({
    name: "test",
    seed: 3,
    aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
    mission: [
      { do: "aloft", height: 40 },
      { do: "hover", seconds: 22 },
    ],
    log: { omit },
    ...changes,
  });

describe.each([
  ["the integrator is logged", [], "logged"],
  ["only the controller output is logged", integrators, "rebuilt"],
  ["only the motors tell", [...integrators, ...outputs], "rebuilt"],
])("a moment beyond the motors for a second and a half, where %s", (_, omit, evidence) => {
  test.each(AXES)("winds up %s, and is found when it happens", (axis) => {
    const { flight: flown, truth } = flight(
      { faults: [{ kind: "wind-up", axis, start: 14, end: 15.5, share: 1.15 }] },
      omit,
    );
    const [wound] = truth.windups.filter((one) => one.axis === axis);
    expect(wound).toBeDefined();
    const found = integratorWindup.detect(flown);
    expect(new Set(found.map((one) => one.axis))).toEqual(new Set([axis]));
    const [main] = [...found].sort((a, b) => b.measures.duration!.value - a.measures.duration!.value);
    expect(main!.evidence).toBe(evidence);
    expect(main!.direction).toBe("negative");
    expect(Math.abs(main!.start - wound!.start)).toBeLessThan(0.5);
    if (evidence === "logged") expect(Math.abs(main!.measures.peak!.value - wound!.peak)).toBeLessThan(0.01);
  });
});

test("a steady trim is never called wind-up, with or without the integrator logged", () => {
  const faults: ScenarioInput["faults"] = [
    { kind: "cg-offset", x: 0.02, y: -0.015 },
    { kind: "motor-tilt", motor: 2, degrees: 3 },
  ];
  for (const omit of [[], integrators, [...integrators, ...outputs]]) {
    expect(integratorWindup.detect(flight({ faults }, omit).flight)).toEqual([]);
  }
});

test("a controller that holds its integrators at a limit does not wind up", () => {
  const { flight: flown } = flight({
    controller: { windup: "hold" },
    faults: [{ kind: "wind-up", axis: "yaw", start: 14, end: 15, share: 1.1 }],
  });
  expect(integratorWindup.detect(flown)).toEqual([]);
});

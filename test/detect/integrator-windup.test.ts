import { describe, expect, test } from "vitest";
import { integratorWindup } from "../../src/detect/index.ts";
import { buildFlight } from "../../src/flight/index.ts";
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

describe("where neither the integrator, an output nor the moments of the motors are known", () => {
  // Without the aircraft file the ceiling is still seen, as a plateau of the commands; what they add up to is not.
  const blind = (faults: ScenarioInput["faults"]) => {
    const { flight: flown, truth } = flight({ faults }, [...integrators, ...outputs]);
    return { flown: buildFlight(flown.log, null), truth };
  };

  test.each([
    ["roll", 1.15, "negative"],
    ["roll", -1.3, "positive"],
    ["pitch", 1.15, "negative"],
  ] as const)("wind-up of %s is told by its outward signs (moment %f)", (axis, share, direction) => {
    const { flown, truth } = blind([{ kind: "wind-up", axis, start: 14, end: 15.5, share }]);
    const [wound] = truth.windups.filter((one) => one.axis === axis);
    const found = integratorWindup.detect(flown);
    const [main] = [...found].sort((a, b) => b.measures.peak!.value - a.measures.peak!.value);
    expect(main).toMatchObject({ axis, direction, evidence: "outward", explained: null });
    expect(Math.abs(main!.start - wound!.start)).toBeLessThan(0.5);
    expect(main!.end).toBeLessThan(wound!.end);
    // An angle lost, not a term; a sign seen from outside is worth less than a fit.
    expect(main!.measures.peak!.unit).toBe("rad");
    expect(main!.confidence).toBeLessThanOrEqual(0.5);
  });

  test.each([
    ["pitch", -1.3],
    ["pitch", 1.5],
    ["roll", 1.3],
  ] as const)(
    "an aircraft that tumbles about %s (moment %f) is not told to have wound up other axes",
    (axis, share) => {
      const { flown } = blind([{ kind: "wind-up", axis, start: 14, end: 15.5, share }]);
      expect(integratorWindup.detect(flown).map((one) => one.axis)).toEqual([axis]);
    },
  );

  test("a steady trim and a moment that motors can give at once show none", () => {
    expect(integratorWindup.detect(blind([{ kind: "cg-offset", x: 0.02, y: -0.015 }]).flown)).toEqual([]);
    const withinReach = blind([{ kind: "wind-up", axis: "roll", start: 14, end: 15.5, share: 0.25 }]);
    expect(integratorWindup.detect(withinReach.flown)).toEqual([]);
  });
});

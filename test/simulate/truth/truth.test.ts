import { describe, expect, test } from "vitest";
import { defineScenario, type FaultInput, type ScenarioInput, simulate } from "../../../src/simulate/index.ts";
import { builtInAircraft } from "../support/flights.ts";

const hover = (fault: FaultInput, changes: Partial<ScenarioInput> = {}) =>
  simulate(
    defineScenario({
      name: "test",
      aircraft: builtInAircraft("survey-quad"),
      mission: [
        { do: "aloft", height: 60 },
        { do: "hover", seconds: 24 },
      ],
      faults: [fault],
      ...changes,
    }),
  ).truth;

describe("an outside moment", () => {
  const fault = {
    kind: "periodic-moment",
    axis: "roll",
    start: 10,
    frequency: 1.5,
    size: 0.1,
    growth: 0.3,
    most: 3,
  } as const;
  const [truth] = hover(fault).faults;

  test("has the frequency and growth that were stated", () => {
    expect([truth!.frequency, truth!.growth]).toEqual([1.5, 0.3]);
    expect(truth!.trend).toBe("growing");
    expect(truth!.driver).toBe("external");
  });

  test("becomes visible when it exceeds three times the calm rms of its band", () => {
    expect(truth!.visible).toBeGreaterThan(10.5);
    expect(truth!.calm).toBeGreaterThan(0.001);
    const [stronger] = hover({ ...fault, size: 0.2 }).faults;
    // Twice the size is there ln 2 / growth earlier, to within a cycle.
    expect(Math.abs(truth!.visible! - stronger!.visible! - Math.log(2) / 0.3)).toBeLessThan(0.7);
  });

  test("that never exceeds it is never visible", () => {
    expect(hover({ ...fault, size: 0.001, growth: 0 }).faults[0]!.visible).toBeNull();
  });
});

test("a loop with too much delay grows as its linearised mode does", () => {
  const [truth] = hover({ kind: "loop-delay", axis: "pitch", start: 3, delay: 0.14 }).faults;
  expect(truth!.driver).toBe("controller");
  expect(truth!.trend).toBe("growing");
  expect(truth!.growth).toBe(truth!.mode!.growth);
  expect(truth!.growth).toBeGreaterThan(0.2);
  // At the motors' limits the loop loses gain and slows down a little.
  expect(Math.abs(truth!.frequency! / truth!.mode!.frequency - 1)).toBeLessThan(0.1);
  expect(truth!.findings).toContain("oscillation");
});

test("a swinging load is coupled and swings near both masses' frequency, the controller holding against it", () => {
  const [truth] = hover({ kind: "swinging-load", start: 5, mass: 2, length: 1.5, swing: 0.4, below: 0.4 }).faults;
  expect(truth!.driver).toBe("coupled");
  expect(truth!.visible).not.toBeNull();
  const free = Math.sqrt((9.80665 / 1.5) * (1 + 2 / 14)) / (2 * Math.PI);
  expect(Math.abs(truth!.frequency! / free - 1)).toBeLessThan(0.2);
});

test("limits are counted row by row: a motor held on its floor", () => {
  const truth = hover(
    { kind: "steady-moment", axis: "yaw", start: 10, ramp: 4, size: 4 },
    {
      controller: { limit: { roll: 1, pitch: 1, yaw: 1 } },
    },
  );
  const floors = truth.limits.filter(({ limit }) => limit === "floor");
  expect(floors.map(({ motor }) => motor).sort()).toEqual([2, 4]);
  expect(floors[0]!.stretches[0]!.start).toBeGreaterThan(10);
});

test("an integrator that a moment keeps from its aim winds up", () => {
  const truth = hover({ kind: "wind-up", axis: "yaw", start: 8, end: 16, share: 1.3, ramp: 1 });
  const windup = truth.windups.find(({ axis }) => axis === "yaw")!;
  expect(windup.start).toBeGreaterThan(8);
  expect(windup.start).toBeLessThan(16);
  expect(windup.peak).toBeCloseTo(0.3, 2);
});

test("a commanded oscillation stands in the truth with its frequency, and is no fault", () => {
  const truth = simulate(
    defineScenario({
      name: "test",
      aircraft: builtInAircraft("small-quad"),
      mission: [
        { do: "aloft", height: 40 },
        { do: "hover", seconds: 3 },
        { do: "sticks", axis: "roll", shape: "sine", degrees: 8, from: 1.2, seconds: 8 },
        { do: "hover", seconds: 4 },
      ],
    }),
  ).truth;
  expect(truth.faults).toEqual([]);
  expect(truth.sticks).toEqual([{ axis: "roll", shape: "sine", start: 3, end: 11, frequency: 1.2 }]);
  expect(truth.crash).toBeNull();
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Aircraft } from "../../src/aircraft/index.ts";
import {
  BUILT_IN_AIRCRAFT,
  builtInScenario,
  defineScenario,
  type FaultInput,
  listScenarios,
  simulate,
  simulatedSeries,
  truthSchema,
} from "../../src/simulate/index.ts";
import { csvText } from "../../src/simulate/record/csv.ts";
import { builtInAircraft } from "./support/flights.ts";

const short = {
  name: "test",
  aircraft: builtInAircraft("small-quad"),
  mission: [
    { do: "take-off" as const, height: 3 },
    { do: "legs" as const, speeds: [5], seconds: 3 },
    { do: "land" as const },
  ],
};

test("the same scenario gives the same bytes, another seed others", () => {
  const text = (seed: number) => csvText(simulate(defineScenario({ ...short, seed })).log);
  expect(text(1)).toBe(text(1));
  expect(text(1)).not.toBe(text(2));
});

test("a fault leaves the flight before its start as it was, noise and all", () => {
  const fault: FaultInput = { kind: "periodic-moment", axis: "roll", start: 8, frequency: 2, size: 0.3 };
  const healthy = simulate(defineScenario(short)).log;
  const faulty = simulate(defineScenario({ ...short, faults: [fault] })).log;
  const until = healthy.time.findIndex((t) => t >= 8);
  for (const [k, { values }] of healthy.columns.entries()) {
    expect(faulty.columns[k]!.values.subarray(0, until)).toEqual(values.subarray(0, until));
  }
});

test("the series have SI units and increasing times", () => {
  const simulation = simulate(defineScenario(short));
  const series = simulatedSeries(simulation.log);
  const heading = series.get("heading")!;
  expect(Math.max(...heading.values)).toBeLessThan(2 * Math.PI + 0.01);
  expect(heading.time.every((t, i) => i === 0 || t > heading.time[i - 1]!)).toBe(true);
  const commands = series.get("motor.1.command")!.values;
  expect(Math.min(...commands)).toBeGreaterThanOrEqual(1080);
});

test("every built-in scenario is listed with a story and can be had by name", () => {
  for (const { name, story } of listScenarios()) {
    expect(story.length).toBeGreaterThan(40);
    expect(builtInScenario(name)?.name).toBe(name);
  }
  expect(builtInScenario("none such")).toBeUndefined();
});

describe("random aircraft and faults", () => {
  const layouts = Object.keys(BUILT_IN_AIRCRAFT);
  const aircraft = fc
    .record({
      name: fc.constantFrom(...layouts),
      weight: fc.double({ min: 0.4, max: 1.9, noNaN: true }),
      exponent: fc.constantFrom(1, 1.5, 2, 2.4),
      lag: fc.double({ min: 0.02, max: 0.2, noNaN: true }),
      unit: fc.constantFrom("us", "1", "%"),
    })
    .map(({ name, weight, exponent, lag, unit }): Aircraft => {
      const base = builtInAircraft(name);
      const command =
        unit === "us" ? base.command : { unit, min: 0, max: unit === "1" ? 1 : 100, idle: unit === "1" ? 0.05 : 5 };
      return {
        ...base,
        mass: { value: base.mass!.value * weight, error: null },
        command,
        thrust: { ...base.thrust, exponent, timeConstant: { value: lag, error: null } },
      };
    });
  const start = fc.double({ min: 0, max: 25, noNaN: true });
  const axis = fc.constantFrom("roll" as const, "pitch" as const, "yaw" as const);
  const motor = fc.integer({ min: 1, max: 4 });
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const fault: fc.Arbitrary<FaultInput> = fc.oneof(
    fc.record({ kind: fc.constant("rate-gain" as const), start, axis, factor: number(0.05, 30) }),
    fc.record({ kind: fc.constant("loop-delay" as const), start, axis, delay: number(0.001, 0.4) }),
    fc.record({ kind: fc.constant("light-damping" as const), start, axis, damping: number(0.01, 0.2) }),
    fc.record({
      kind: fc.constant("ringing-structure" as const),
      start,
      axis,
      frequency: number(0.5, 15),
      damping: number(0.01, 0.1),
      size: number(0.01, 3),
    }),
    fc.record({
      kind: fc.constant("periodic-moment" as const),
      start,
      axis,
      frequency: number(0.3, 20),
      size: number(0.001, 5),
      growth: number(-1, 1),
    }),
    fc.record({
      kind: fc.constant("vortex-shedding" as const),
      start,
      axis,
      diameter: number(0.05, 1),
      size: number(0.01, 3),
    }),
    fc.record({ kind: fc.constant("swinging-load" as const), start, mass: number(0.05, 3), length: number(0.3, 6) }),
    fc.record({
      kind: fc.constant("payload" as const),
      start,
      mass: number(0.05, 10),
      x: number(-1, 1),
      y: number(-1, 1),
    }),
    fc.record({ kind: fc.constant("airspeed-moment" as const), start, axis, size: number(-0.5, 0.5) }),
    fc.record({
      kind: fc.constant("boom" as const),
      start,
      mass: number(0.05, 2),
      reach: number(-2, 2),
      moment: number(-0.2, 0.2),
      slope: number(-0.3, 0.3),
    }),
    fc.record({ kind: fc.constant("wind-up" as const), start, axis, share: number(-1.5, 1.5) }),
    fc.record({ kind: fc.constant("kick" as const), start, axis, size: number(-20, 20) }),
    fc.record({ kind: fc.constant("motor-tilt" as const), start, motor, degrees: number(-40, 40) }),
    fc.record({ kind: fc.constant("weak-motor" as const), start, motor, loss: number(0.01, 1) }),
    fc.record({ kind: fc.constant("slow-motor" as const), start, motor, factor: number(1.1, 15) }),
    fc.record({ kind: fc.constant("damaged-blade" as const), start, motor, force: number(0.1, 40) }),
    fc.record({ kind: fc.constant("gusts" as const), start, wind20: number(1, 60) }),
    fc.record({ kind: fc.constant("rate-clipping" as const), start, limit: number(0.1, 10) }),
    fc.record({ kind: fc.constant("log-gap" as const), start, end: number(26, 40) }),
    fc.record({ kind: fc.constant("log-jitter" as const), start, sd: number(0.0001, 0.02) }),
    fc.record({ kind: fc.constant("repeated-stamps" as const), start }),
    fc.record({ kind: fc.constant("frozen-end" as const), start }),
  );

  test("never give a number that is none, and the truth always lies inside the log", () => {
    const scenario = fc.record({
      aircraft,
      seed: fc.integer({ min: 0, max: 1e9 }),
      faults: fc.array(fault, { maxLength: 3 }),
      allocation: fc.constantFrom("clip" as const, "roll-pitch-priority" as const),
    });
    fc.assert(
      fc.property(scenario, ({ aircraft, seed, faults, allocation }) => {
        const { log, truth } = simulate(
          defineScenario({
            name: "random",
            aircraft,
            seed,
            faults,
            step: 0.002,
            controller: { allocation },
            log: { rate: 50 },
            mission: [
              { do: "take-off", height: 5 },
              { do: "legs", speeds: [6], seconds: 4 },
            ],
          }),
        );
        for (const { values, column } of log.columns) {
          const first = values[0]!;
          expect(Number.isFinite(first), column).toBe(true);
          for (const value of values) if (!Number.isNaN(value)) expect(Math.abs(value)).toBeLessThan(1e7);
        }
        truthSchema.parse(truth);
        const end = truth.duration;
        const times = [
          ...truth.faults.flatMap(({ applied, visible, ended }) => [applied, visible ?? applied, ended]),
          ...truth.phases.flatMap((phase) => [phase.start, phase.end]),
          ...truth.limits.flatMap(({ stretches }) => stretches.flatMap((stretch) => [stretch.start, stretch.end])),
          ...truth.windups.flatMap((windup) => [windup.start, windup.end]),
          ...truth.sticks.flatMap((stick) => [stick.start, stick.end]),
        ];
        for (const time of times) {
          expect(time).toBeGreaterThanOrEqual(0);
          expect(time).toBeLessThanOrEqual(end);
        }
        for (const { applied, visible, ended } of truth.faults) {
          if (visible === null) continue;
          expect(visible).toBeGreaterThanOrEqual(applied);
          expect(visible).toBeLessThanOrEqual(ended);
        }
      }),
      { numRuns: 15, seed: 4 },
    );
  });
});

import { describe, expect, test } from "vitest";
import { groupAuthority } from "../../src/detect/group-authority.ts";
import { type AuthorityEvidence, authority, authoritySeries } from "../../src/detect/index.ts";
import { makeFindings } from "../../src/findings/index.ts";
import { builtInScenario } from "../../src/simulate/built-in/scenarios.ts";
import { BUILT_IN_AIRCRAFT, type ScenarioInput } from "../../src/simulate/index.ts";
import { evenly, fastFlight, type ValueAt } from "./fast-flight.ts";
import { simulatedFlight } from "./simulated-flight.ts";

const hover = (changes: Partial<ScenarioInput> = {}): ScenarioInput => ({
  name: "test",
  aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
  mission: [
    { do: "aloft", height: 40 },
    { do: "hover", seconds: 15 },
  ],
  ...changes,
});

test("in calm hover nearly all of hover's control is left, every way", () => {
  const found = authority.detect(simulatedFlight(hover()).flight);
  expect(found.map(({ axis, direction }) => `${axis} ${direction}`)).toEqual([
    "roll positive",
    "roll negative",
    "pitch positive",
    "pitch negative",
    "yaw positive",
    "yaw negative",
  ]);
  for (const { distribution, measures } of found) {
    expect(Math.abs(distribution.p50 - 1)).toBeLessThan(0.1);
    expect(measures.share!.value).toBe(0);
  }
});

describe("in a fast log", () => {
  const { max } = BUILT_IN_AIRCRAFT["small-quad"]!.command;
  const steady: ValueAt = (_, hover) => hover;
  /** Least room left about roll, and the time with next to none, where motor 1 is at its ceiling for so many seconds. */
  const atCeiling = (time: Float64Array, seconds: number) => {
    const pushed: ValueAt = (now, hover) => (now >= 10 && now < 10 + seconds - 1e-9 ? max : hover);
    const others = Object.fromEntries([2, 3, 4].map((motor) => [`motor.${motor}.command`, steady]));
    const found = authority.detect(fastFlight(time, { "motor.1.command": pushed, ...others }));
    const scarce = found.filter(({ axis, measures }) => axis === "roll" && measures.least!.value < 0.1);
    return scarce.flatMap(({ stretches }) => stretches);
  };

  test("a dip of a millisecond, which no rotor follows, is no loss of room", () => {
    expect(atCeiling(evenly(1000), 0.001)).toEqual([]);
  });

  test.each([
    ["even stamps of 1000 Hz", evenly(1000)],
    ["even stamps of 250 Hz", evenly(250)],
    [
      "400 Hz in bursts of four",
      Float64Array.from({ length: 8000 }, (_, k) => Math.floor(k / 4) * 0.01 + (k % 4) * 1e-4),
    ],
  ])("a tenth of a second without room is found where it was: %s", (_, time) => {
    const stretches = atCeiling(time, 0.1);
    expect(stretches[0]!.start).toBeCloseTo(10, 2);
    expect(Math.abs(stretches.at(-1)!.end - 10.1)).toBeLessThan(0.015);
  });
});

describe("with a motor pushed onto its floor", () => {
  const { flight, truth } = simulatedFlight(builtInScenario("long-boom") as ScenarioInput);
  const found = authority.detect(flight);
  const of = (axis: string, direction: string) =>
    found.find((one) => one.axis === axis && one.direction === direction)!;

  test("the directions that need less of that motor are gone, and it is named; the others are not", () => {
    expect(truth.limits.map(({ motor, limit }) => `${motor} ${limit}`)).toEqual(["4 floor"]);
    // Rear left on its floor: no more roll left, pitch up or yaw left.
    for (const [axis, direction] of [
      ["roll", "negative"],
      ["pitch", "positive"],
      ["yaw", "negative"],
    ] as const) {
      expect(of(axis, direction).measures.least!.value).toBe(0);
      expect(of(axis, direction).binding[0]!.motor).toBe(4);
      expect(of(axis, direction).where[0]!.phase.kind).toBe("cruise");
    }
    expect(of("roll", "positive").measures.least!.value).toBeGreaterThan(0.2);
    expect(of("yaw", "positive").measures.least!.value).toBeGreaterThan(0.2);
  });

  test("share and stretches equal a direct count of samples below a tenth", () => {
    const series = authoritySeries(flight)!;
    for (const { axis, direction, left } of series.axes) {
      const below = left.filter((value) => value < 0.1).length;
      const { measures, stretches } = of(axis, direction);
      expect(measures.share!.value).toBe(below / left.length);
      const seconds = stretches.reduce((sum, { start, end }) => sum + end - start, 0);
      expect(Math.abs(seconds - below * series.motors.interval)).toBeLessThan(0.02 * seconds + 1e-6);
    }
  });

  test("every stretch in which the truth has the motor on its floor lies in one without control", () => {
    const { stretches } = of("roll", "negative");
    for (const { start, end } of truth.limits[0]!.stretches) {
      const middle = (start + end) / 2;
      expect(stretches.some((one) => one.start <= middle + 0.03 && one.end >= middle - 0.03)).toBe(true);
    }
  });
});

describe("by speed steps and by events, in a flight whose rear motor rests on its floor", () => {
  const { flight } = simulatedFlight(builtInScenario("long-boom") as ScenarioInput);
  const found = authority.detect(flight);
  const series = authoritySeries(flight)!;

  test("least and median of each step equal a direct count over its legs, and the least has its motor", () => {
    for (const { axis, direction, steps, perMotor, measures } of found) {
      const { left } = series.axes.find((one) => one.axis === axis && one.direction === direction)!;
      expect(steps.map(({ step }) => step)).toEqual([null, 1, 2, 3, 4]);
      for (const { step, least, median, motor } of steps.slice(1)) {
        const legs = flight.phases.filter((phase) => phase.step === step);
        const own = left.filter((_, k) =>
          legs.some(({ start, end }) => series.motors.time[k]! >= start && series.motors.time[k]! <= end),
        );
        expect(least).toBe(Math.min(...own));
        expect(median).toBe(
          [...own].sort((a, b) => a - b).at(own.length / 2)! * 0.5 +
            [...own].sort((a, b) => a - b).at((own.length - 1) / 2)! * 0.5,
        );
        expect(perMotor![`least-at-step-${step}`]).toEqual([{ motor, value: least, unit: "1" }]);
        expect(measures[`median-at-step-${step}`]!.value).toBe(median);
      }
    }
  });

  test("ways that ran out together share a group with one leader; those with enough left have none", () => {
    const grouped = found.filter(({ group }) => group !== undefined);
    expect(grouped.length).toBeGreaterThan(1);
    for (const group of new Set(grouped.map((one) => one.group))) {
      const members = grouped.filter((one) => one.group === group);
      expect(members.filter(({ leads }) => leads)).toHaveLength(1);
      expect(members.every(({ measures }) => measures.least!.value < 0.3)).toBe(true);
    }
    expect(found.some(({ measures }) => measures.least!.value >= 0.3)).toBe(true);
    expect(found.every(({ group, measures }) => group === undefined || measures.least!.value < 0.3)).toBe(true);
  });
});

test("without an aircraft file it says what it needs", () => {
  const { flight } = simulatedFlight(hover());
  expect(authority.missing({ ...flight, aircraft: null })).toEqual(["aircraft file: motors, command"]);
});

describe("ways that had little left and never ran out", () => {
  const way = (axis: "roll" | "pitch" | "yaw", least: number, leastAt: number): AuthorityEvidence => ({
    kind: "authority",
    axis,
    direction: "positive",
    start: 0,
    end: 60,
    stretches: [],
    leastAt,
    leastMotor: 2,
    binding: [{ motor: 2, share: 1 }],
    where: [],
    distribution: { p1: 0.3, p5: 0.5, p50: 1 },
    hoverFrom: "hover phases",
    steps: [],
    confidence: 0.95,
    measures: {
      least: { value: least, unit: "1" },
      share: { value: 0, unit: "1" },
      longest: { value: 0, unit: "s" },
    },
  });
  const grouped = (...ways: AuthorityEvidence[]) =>
    groupAuthority(ways).map(({ group, leads }) => (group === undefined ? "alone" : leads ? "leads" : "follows"));

  test("are one event where their least came at the same moment, led by the one with the least left", () => {
    expect(grouped(way("roll", 0.26, 5), way("pitch", 0.22, 5.3), way("yaw", 0.28, 5.4))).toEqual([
      "follows",
      "leads",
      "follows",
    ]);
  });

  test("stand alone where it came at another, or where enough was left", () => {
    expect(grouped(way("roll", 0.26, 5), way("pitch", 0.22, 5.6), way("yaw", 0.31, 5.1))).toEqual([
      "alone",
      "alone",
      "alone",
    ]);
  });

  test("are told in words that fit: little left, and nothing of a tenth", () => {
    const evidence = groupAuthority([way("roll", 0.26, 5), way("yaw", 0.28, 5)]);
    const findings = makeFindings({ evidence, motorName: (motor) => `motor ${motor}`, phaseName: () => "climb" });
    expect(findings.map(({ severity }) => severity)).toEqual(["advisory", "advisory"]);
    expect(findings[0]!.meaning).toMatch(/had little left to roll right harder/);
    expect(findings[0]!.summary).toMatch(/Room to yaw right went down with it\.$/);
    expect(findings[1]!.summary).toMatch(/^Room to yaw right went down at the same moment: to 28 % of what hover has/);
    for (const { summary, meaning } of findings) expect(summary + meaning).not.toMatch(/tenth|hardly/);
  });
});

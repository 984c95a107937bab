import { describe, expect, test } from "vitest";
import { missionSchema } from "../../../src/simulate/mission/mission.ts";
import { planMission } from "../../../src/simulate/mission/plan.ts";
import { stickAt } from "../../../src/simulate/mission/stick.ts";

const plan = (...tasks: Parameters<typeof missionSchema.parse>[0][]) => planMission(missionSchema.parse(tasks), 0.02);

describe("a plan", () => {
  const survey = plan(
    { do: "take-off", height: 10 },
    { do: "hover", seconds: 5 },
    { do: "legs", speeds: [4, 8], seconds: 10, heading: 90 },
    { do: "land" },
  );

  test("climbs to the height asked for", () => {
    const hover = survey.phases.find(({ kind }) => kind === "hover")!;
    expect(-survey.position[2][Math.round(hover.start / 0.02) + 1]!).toBeCloseTo(10, 1);
  });

  test("numbers speed steps and legs, and holds each leg's speed for the time asked for", () => {
    const legs = survey.phases.filter(({ kind }) => kind === "cruise");
    expect(legs.map(({ speed, step, leg }) => [speed, step, leg])).toEqual([
      [4, 1, 1],
      [4, 1, 2],
      [8, 2, 3],
      [8, 2, 4],
    ]);
    for (const { start, end } of legs) expect(end - start).toBeCloseTo(10, 9);
  });

  test("flies the legs up and down: east first, then back, nose forward", () => {
    const legs = survey.phases.filter(({ kind }) => kind === "cruise");
    for (const [index, { start, speed }] of legs.entries()) {
      const tick = Math.round(start / 0.02) + 10;
      expect(survey.velocity[1][tick]).toBeCloseTo(index % 2 === 0 ? speed! : -speed!, 9);
      expect(Math.sin(survey.heading[tick]!)).toBeCloseTo(index % 2 === 0 ? 1 : -1, 9);
    }
  });

  test("has phases in order and without gaps", () => {
    for (const [i, { start, end }] of survey.phases.entries()) {
      expect(end).toBeGreaterThan(start);
      expect(start).toBe(i === 0 ? 0 : survey.phases[i - 1]!.end);
    }
  });

  test("never jumps in speed before it touches the ground", () => {
    const airborne = survey.flying.lastIndexOf(1) + 1;
    for (const speeds of survey.velocity) {
      const steps = speeds.subarray(1, airborne).map((speed, i) => Math.abs(speed - speeds[i]!));
      expect(Math.max(...steps)).toBeLessThan(0.05);
    }
  });
});

test("a log may begin in the air", () => {
  const aloft = plan({ do: "aloft", height: 40 }, { do: "hover", seconds: 2 });
  expect(aloft.position[2][0]).toBe(-40);
  expect(aloft.flying[0]).toBe(1);
  expect(aloft.ticks).toBe(100);
});

describe("stick inputs", () => {
  const stick = { do: "sticks", axis: "roll", degrees: 90, seconds: 8, from: 0.5, to: 4 } as const;

  test("a step holds for the middle half", () => {
    expect([1.9, 2.1, 5.9, 6.1].map((t) => stickAt({ ...stick, shape: "step" }, t))).toEqual([
      0,
      Math.PI / 2,
      Math.PI / 2,
      0,
    ]);
  });

  test("a doublet goes one way and the other", () => {
    expect([1, 3, 5, 7].map((t) => Math.sign(stickAt({ ...stick, shape: "doublet" }, t)))).toEqual([0, 1, -1, 0]);
  });

  test("a sweep's frequency runs from one end to the other", () => {
    const crossings: number[] = [];
    for (let t = 0.001; t < 8; t += 0.001) {
      const [before, now] = [t - 0.001, t].map((at) => stickAt({ ...stick, shape: "sweep" }, at)) as [number, number];
      if (before < 0 && now >= 0) crossings.push(t);
    }
    const local = (i: number) => 1 / (crossings[i + 1]! - crossings[i]!);
    expect(local(0)).toBeLessThan(1);
    expect(local(crossings.length - 2)).toBeGreaterThan(3.4);
  });
});

import { describe, expect, test } from "vitest";
import { gainFactorForDamping, loopPole } from "../../../src/simulate/control/loop-pole.ts";
import { fly } from "../../../src/simulate/flight/fly.ts";
import { setUp } from "../../../src/simulate/scenario/setup.ts";
import { builtInAircraft, stillHover } from "../support/flights.ts";

describe("the linearised loop", () => {
  test.each([
    ["survey-quad", "pitch", 0.14],
    ["small-quad", "roll", 0.08],
    ["octo", "pitch", 0.14],
  ] as const)("%s: its %s mode under %d s of added delay grows as the flown one, within 2 %", (name, axis, delay) => {
    const scenario = stillHover({
      aircraft: builtInAircraft(name),
      seconds: 12,
      log: { rate: 500 },
      faults: [
        { kind: "loop-delay", axis, delay },
        { kind: "kick", axis, size: 1e-5, start: 0.5 },
      ],
    });
    const mode = loopPole(setUp(scenario), axis, { delay });
    expect(mode.re).toBeGreaterThan(0.1);
    const { recording } = fly(scenario);
    const rate = recording.trueRate[axis === "roll" ? 0 : 1];
    const peaks: { time: number; size: number }[] = [];
    for (let i = 1; i < recording.rows - 1; i++) {
      const size = rate[i]!;
      const isPeak = size > 0 && size > rate[i - 1]! && size >= rate[i + 1]!;
      if (isPeak && recording.time[i]! > 3 && size < 0.2) peaks.push({ time: recording.time[i]!, size });
    }
    const [first, last] = [peaks[0]!, peaks.at(-1)!];
    const seconds = last.time - first.time;
    expect(Math.abs(Math.log(last.size / first.size) / seconds / mode.re - 1)).toBeLessThan(0.02);
    expect(Math.abs((2 * Math.PI * (peaks.length - 1)) / seconds / mode.im - 1)).toBeLessThan(0.02);
  });

  test("a healthy aircraft's least damped pitch mode keeps a damping ratio above 0.3", () => {
    for (const name of ["survey-quad", "small-quad", "hexa", "octo", "coaxial-octo"]) {
      const { re, im } = loopPole(setUp(stillHover({ aircraft: builtInAircraft(name) })), "pitch");
      expect(-re / Math.hypot(re, im), name).toBeGreaterThan(0.3);
    }
  });

  test("gainFactorForDamping finds the gain that leaves the damping asked for", () => {
    const setup = setUp(stillHover({ aircraft: builtInAircraft("small-quad") }));
    const { re, im } = loopPole(setup, "roll", { factor: gainFactorForDamping(setup, "roll", 0.05) });
    expect(-re / Math.hypot(re, im)).toBeCloseTo(0.05, 4);
  });
});

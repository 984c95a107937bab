import { randomGenerator } from "../../src/signal/index.ts";
import { gainFactorForDamping, loopPole } from "../../src/simulate/control/loop-pole.ts";
import { BUILT_IN_AIRCRAFT, defineScenario, type ScenarioInput } from "../../src/simulate/index.ts";
import { type Setup, setUp } from "../../src/simulate/scenario/setup.ts";

export const STUDY_KINDS = ["loop", "delay", "outside", "load", "asked", "healthy"] as const;
export type StudyKind = (typeof STUDY_KINDS)[number];

/** A flight drawn at random: layout, log rate, air, mission, and one fault of the kind (none for "healthy"). */
export function drawScenario(kind: StudyKind, seed: number): ScenarioInput {
  const random = randomGenerator(7919 * seed + STUDY_KINDS.indexOf(kind));
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const one = <T>(values: readonly T[]): T =>
    values[Math.min(values.length - 1, Math.floor(values.length * random.uniform()))]!;
  const aircraft = BUILT_IN_AIRCRAFT[one(Object.keys(BUILT_IN_AIRCRAFT))]!;
  const axis = one(["roll", "pitch"] as const);
  const isHealthy = kind === "healthy";
  const base: ScenarioInput = {
    name: `study-${kind}-${seed}`,
    seed,
    aircraft,
    air: {
      wind: { speed: between(0, isHealthy ? 6 : 3), from: between(0, 360) },
      gusts: between(0, isHealthy ? 20 : 8),
    },
    log: { rate: one([50, 100, 200]) },
    mission: [
      { do: "aloft", height: 15 },
      { do: "hover", seconds: 40 },
    ],
  };
  const setup = setUp(defineScenario(base));
  const start = between(15, 22);
  switch (kind) {
    case "loop": {
      const factor = gainFactorForDamping(setup, axis, -between(0.02, 0.1));
      return { ...base, faults: [{ kind: "rate-gain", axis, factor, start, ramp: one([0, 2]) }] };
    }
    case "delay":
      return {
        ...base,
        faults: [{ kind: "loop-delay", axis, delay: delayForDamping(setup, axis, -between(0.02, 0.08)), start }],
      };
    case "outside": {
      const frequency = between(0.6, 5);
      const inertia = setup.vehicle.inertia[axis === "roll" ? 0 : 1]!;
      const size = between(0.4, 2) * inertia * 2 * Math.PI * frequency;
      return { ...base, faults: [{ kind: "periodic-moment", axis, frequency, size, start, ramp: one([0, 3]) }] };
    }
    case "load": {
      const mass = between(0.15, 0.4) * setup.vehicle.mass;
      return {
        ...base,
        faults: [{ kind: "swinging-load", mass, length: between(0.4, 2), swing: between(0.3, 0.6), start }],
      };
    }
    case "asked":
      return {
        ...base,
        mission: [
          { do: "aloft", height: 15 },
          { do: "hover", seconds: 18 },
          { do: "sticks", axis, shape: "sine", degrees: between(6, 18), from: between(0.4, 1), seconds: 14 },
          { do: "hover", seconds: 8 },
        ],
      };
    case "healthy":
      return {
        ...base,
        mission: [
          { do: "aloft", height: 15 },
          { do: "hover", seconds: 30 },
          { do: "legs", speeds: [between(3, 6), between(6, 12)], seconds: 10, heading: between(0, 360) },
          { do: "sticks", axis, shape: one(["step", "doublet"] as const), degrees: between(5, 20), seconds: 6 },
          { do: "hover", seconds: 10 },
        ],
      };
  }
}

/** s of added delay that leaves the axis this damping ratio; by bisection. */
function delayForDamping(setup: Setup, axis: "roll" | "pitch", damping: number): number {
  let [low, high] = [0, 0.39];
  for (let n = 0; n < 20; n++) {
    const middle = (low + high) / 2;
    const { re, im } = loopPole(setup, axis, { delay: middle });
    if (-re / Math.hypot(re, im) > damping) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

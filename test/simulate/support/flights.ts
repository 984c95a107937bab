import type { Aircraft } from "../../../src/aircraft/index.ts";
import type { fly } from "../../../src/simulate/flight/fly.ts";
import { BUILT_IN_AIRCRAFT } from "../../../src/simulate/index.ts";
import { defineScenario, type Scenario, type ScenarioInput } from "../../../src/simulate/scenario/scenario.ts";

/** No wind, no gusts, no noise, a steady battery: what is left is mechanics and control. */
export const STILL = {
  air: { gusts: 0.0001, unrest: 0 },
  battery: { sag: false },
  sensors: { gyro: { noise: 0, lowpass: 40, limit: 35 }, accelerometer: 0, attitude: 0, position: 0, velocity: 0 },
  rotors: { imbalance: 0 },
} satisfies Partial<ScenarioInput>;

export function builtInAircraft(name: string): Aircraft {
  const found = BUILT_IN_AIRCRAFT[name];
  if (found === undefined) throw new Error(`no aircraft ${name}`);
  return found;
}

/** A short hover in the air of an aircraft, undisturbed unless told otherwise. */
export function stillHover(changes: Partial<ScenarioInput> & { aircraft: Aircraft; seconds?: number }): Scenario {
  const { seconds = 20, ...rest } = changes;
  return defineScenario({
    name: "test",
    ...STILL,
    mission: [
      { do: "aloft", height: 50 },
      { do: "hover", seconds },
    ],
    ...rest,
  });
}

/** Mean of a channel over the last seconds of a flight, as recorded and before rounding. */
export function lastMean(flown: ReturnType<typeof fly>, channel: string, seconds = 5): number {
  const { time, channels, rows } = flown.recording;
  const values = channels.get(channel)!;
  const from = time.findIndex((t) => t >= time[rows - 1]! - seconds);
  return values.subarray(from, rows).reduce((sum, value) => sum + value, 0) / (rows - from);
}

/** Thrust share of each motor, from its mean command at the end of a flight. */
export function lastShares(flown: ReturnType<typeof fly>): number[] {
  const { aircraft } = flown.setup.scenario;
  const { min, max } = aircraft.command;
  return aircraft.motors.map(
    (_, i) => ((lastMean(flown, `motor.${i + 1}.command`) - min) / (max - min)) ** (aircraft.thrust.exponent ?? 2),
  );
}

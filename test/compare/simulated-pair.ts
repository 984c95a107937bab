import { buildFlight, type Flight } from "../../src/flight/index.ts";
import { BUILT_IN_AIRCRAFT, type FaultInput, type ScenarioInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";

export interface SimulatedMission {
  readonly seed: number;
  readonly speeds: readonly number[];
  /** m/s, and the degrees it comes from; legs run along 35 and 215 degrees */
  readonly wind?: { readonly speed: number; readonly from: number };
  /** kt at 20 ft; none for still air */
  readonly gusts?: number;
  readonly seconds?: number;
  readonly faults?: readonly FaultInput[];
  readonly omit?: readonly string[];
}

/** The survey quadrotor up and down a field, one leg each way a speed. */
export function flyMission(mission: SimulatedMission): Flight {
  const { seed, speeds, wind = { speed: 0, from: 0 }, gusts = 5, seconds = 10, faults = [], omit = [] } = mission;
  return simulatedFlight(scenarioOf({ seed, speeds, wind, gusts, seconds, faults, omit })).flight;
}

function scenarioOf(mission: Required<SimulatedMission>): ScenarioInput {
  const { seed, speeds, wind, gusts, seconds, faults, omit } = mission;
  return {
    name: "mission",
    seed,
    step: 0.002,
    aircraft: BUILT_IN_AIRCRAFT["survey-quad"]!,
    body: { inertia: { roll: 0.8, pitch: 0.95, yaw: 1.5 }, pitching: { moment: -0.03, slope: 0.03 } },
    air: { wind, gusts, ...(gusts === 0 ? { unrest: 0 } : {}) },
    mission: [
      { do: "aloft", height: 15 },
      { do: "hover", seconds: 12 },
      { do: "legs", speeds: [...speeds], seconds, heading: 35, spacing: 8, acceleration: 2.5, turn: 60 },
    ],
    log: { rate: 50, omit: ["speed.air", ...omit] },
    faults: [...faults],
  };
}

/** The same flight as if its log ended at `end` s. */
export function endedAt(flight: Flight, end: number): Flight {
  return buildFlight({ ...flight.log, frozenFrom: end }, flight.aircraft);
}

/** A longer boom: heavier, further ahead, and pushed round by the air. */
export const LONGER_BOOM: FaultInput = {
  kind: "boom",
  start: 0,
  mass: 0.5,
  reach: 0.5,
  moment: -0.01,
  slope: 0.03,
};

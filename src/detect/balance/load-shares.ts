import { type Aircraft, controlEffectiveness, WRENCH } from "../../aircraft/index.ts";
import { multiply, pseudoInverse } from "../../signal/index.ts";

/** How an aircraft in order would share its weight among its motors, and where they push. */
export interface Layout {
  readonly motors: number;
  /** m forward and right of the reference point; +1 where the rotor's reaction turns the nose right */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly reaction: Float64Array;
  /** m, reaction torque over thrust */
  readonly torqueRatio: number;
  readonly isTorqueKnown: boolean;
  /** N of each motor at full command, or shares of the strongest */
  readonly maxThrust: Float64Array;
  /** share of the weight that each motor carries when nothing is wrong; sums to 1 */
  readonly healthy: Float64Array;
}

/**
 * The layout of an aircraft with the thrusts of a balanced hover: the least demands (by sum of squares) that carry the
 * weight without a moment. Alike for all motors of a symmetric aircraft.
 */
export function layoutOf(aircraft: Aircraft): Layout {
  const effectiveness = controlEffectiveness(aircraft);
  const { matrix: b, maxThrust } = effectiveness;
  const count = b.columns;
  const perDemand = { ...b, data: b.data.map((value, at) => value * maxThrust[at % count]!) };
  const demands = multiply(pseudoInverse(perDemand), { rows: 4, columns: 1, data: Float64Array.of(1, 0, 0, 0) }).data;
  const thrusts = demands.map((demand, i) => demand * maxThrust[i]!);
  const total = thrusts.reduce((sum, value) => sum + value, 0);
  const row = (k: number) => b.data.slice(k * count, (k + 1) * count);
  const yaw = row(WRENCH.yaw);
  const torqueRatio = Math.max(...yaw.map(Math.abs));
  return {
    motors: count,
    x: row(WRENCH.pitch),
    y: row(WRENCH.roll).map((value) => (value === 0 ? 0 : -value)),
    reaction: yaw.map(Math.sign),
    torqueRatio,
    isTorqueKnown: effectiveness.isTorqueKnown,
    maxThrust,
    healthy: thrusts.map((thrust) => thrust / total),
  };
}

/** Where the thrusts act: what the controller had to hold, whatever way it shared the work out. */
export interface LoadCentre {
  /** m, centre of thrust forward and right of the reference point: the centre of gravity, when nothing else pulls */
  readonly forward: number;
  readonly right: number;
  /** how much more the motors that turn the nose right carry than the others, over the total; 0 where both alike */
  readonly spinBias: number;
}

/**
 * Statics of hover: about the true centre of gravity the thrusts make no roll or pitch moment, so it lies at their
 * centre; and what one spin direction carries more than the other makes a lasting yaw moment that something holds.
 * @param shares thrust of each motor over the total
 */
export function loadCentre({ x, y, reaction, healthy }: Layout, shares: Float64Array): LoadCentre {
  const weighted = (weights: Float64Array, of: Float64Array) =>
    of.reduce((sum, value, i) => sum + value * weights[i]!, 0);
  return {
    forward: weighted(x, shares),
    right: weighted(y, shares),
    spinBias: weighted(reaction, shares) - weighted(reaction, healthy),
  };
}

import { type Matrix, matrix, multiply, pseudoInverse } from "../signal/index.ts";
import type { Aircraft } from "./aircraft.ts";

/** What motor thrusts do to the body: a force up and three moments about the reference point of the aircraft file. */
export interface Effectiveness {
  /**
   * 4 x n, per newton of each motor: thrust (1, up), then roll, pitch and yaw moment (m). Body axes of ISO 1151-1:
   * roll -y, pitch +x; a propeller that spins clockwise seen from above turns the body the other way, so its yaw is
   * minus the torque ratio.
   */
  readonly matrix: Matrix;
  /** n, N at full command; shares of the strongest motor where the file states no thrust */
  readonly maxThrust: Float64Array;
  /** whether thrusts are newtons, or shares because the file does not state a largest thrust */
  readonly isInNewtons: boolean;
  /** whether yaw moments are true to size, or only in proportion because the file states no torque ratio */
  readonly isTorqueKnown: boolean;
}

/** Rows of the effectiveness matrix. */
export const WRENCH = { thrust: 0, roll: 1, pitch: 2, yaw: 3 } as const;

/** m, reaction torque over thrust of common propellers; stands in where the file has none (common practice). */
export const TYPICAL_TORQUE_RATIO = 0.02;

/**
 * The control effectiveness of any layout, coaxial pairs and motors of unlike strength included. Thrust curve and
 * command range stay outside: the matrix takes thrusts, see `thrustsOf` for how commands become such.
 */
export function controlEffectiveness({ motors, thrust }: Aircraft): Effectiveness {
  const ratio = thrust.torqueRatio ?? TYPICAL_TORQUE_RATIO;
  const stated = motors.map(({ maxThrust }) => maxThrust ?? thrust.max);
  const isInNewtons = stated.every((value) => value !== null);
  const data = Float64Array.from([
    ...motors.map(() => 1),
    ...motors.map(({ y }) => (y === 0 ? 0 : -y)),
    ...motors.map(({ x }) => x),
    ...motors.map(({ spin }) => (spin === "cw" ? -ratio : ratio)),
  ]);
  return {
    matrix: matrix(4, motors.length, data),
    maxThrust: isInNewtons ? Float64Array.from(stated as number[]) : new Float64Array(motors.length).fill(1),
    isInNewtons,
    isTorqueKnown: thrust.torqueRatio !== null,
  };
}

/** Thrust and moments, `[thrust, roll, pitch, yaw]`, of these motor thrusts: N and N m. */
export function wrenchOf({ matrix: b }: Effectiveness, thrusts: Float64Array): Float64Array {
  return multiply(b, { rows: b.columns, columns: 1, data: thrusts }).data;
}

/**
 * The least thrusts (by sum of squares) that give a wrench, limits left aside: B+ w. For four motors in general
 * position they are the only ones.
 *
 * @param wrench thrust, roll, pitch, yaw: N and N m
 * @returns n thrusts, N, that may lie outside what a motor can give
 */
export function leastThrusts({ matrix: b }: Effectiveness, wrench: ArrayLike<number>): Float64Array {
  return multiply(pseudoInverse(b), { rows: 4, columns: 1, data: Float64Array.from(wrench) }).data;
}

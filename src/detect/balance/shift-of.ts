import type { Matrix } from "../../signal/index.ts";
import { type Covariance3, withUnknowns } from "./covariance3.ts";
import { reachOf, type Shift } from "./imbalance-patterns.ts";
import { type Layout, loadCentre } from "./load-shares.ts";

/** A shift of the load with its covariance, in the three numbers by which explanations differ. */
export interface MeasuredShift {
  /** forward / reach, right / reach, spin bias */
  readonly shift: Shift;
  readonly covariance: Covariance3;
}

/** How far the load lies from where an aircraft in order would have it; linear in the shares, so exact for any size. */
export function shiftOf(layout: Layout, shares: Float64Array, covariance: Matrix): MeasuredShift {
  const { forward, right, spinBias } = loadCentre(layout, shares);
  const reach = reachOf(layout);
  const rows = [layout.x.map((x) => x / reach), layout.y.map((y) => y / reach), layout.reaction];
  const cross = new Float64Array(9).map((_, at) => {
    const [a, b] = [rows[Math.floor(at / 3)]!, rows[at % 3]!];
    return a.reduce(
      (sum, left, i) =>
        sum + left * b.reduce((inner, value, j) => inner + value * covariance.data[i * b.length + j]!, 0),
      0,
    );
  });
  return { shift: [forward / reach, right / reach, spinBias], covariance: cross };
}

/** The change from one shift to another, independent ones: covariances add. */
export function shiftBetween(before: MeasuredShift, now: MeasuredShift): MeasuredShift {
  return {
    shift: [now.shift[0] - before.shift[0], now.shift[1] - before.shift[1], now.shift[2] - before.shift[2]],
    covariance: now.covariance.map((value, at) => value + before.covariance[at]!),
  };
}

/** By how much loads differ where nothing is wrong, one standard deviation each. */
export interface Tolerance {
  /** extra demand of a motor */
  readonly motor: number;
  /** offset of the centre of gravity: m, and a share of the reach on top */
  readonly offset: { readonly metres: number; readonly share: number };
  readonly spin: number;
}

/** From one aircraft in order to the next: propellers and motors of one batch, batteries strapped on by eye (common practice). */
export const BETWEEN_AIRCRAFT: Tolerance = { motor: 0.015, offset: { metres: 0.001, share: 0.01 }, spin: 0.007 };
/**
 * From one flight to the next of the same aircraft. Each motor makes its thrust a little otherwise every time, and a
 * battery is strapped on a little elsewhere; so a load that many motors carry repeats better. Repeated flights of one
 * build of a small quadrotor (33 builds, two or three flights each) differ by 0.28 % of the reach and by 0.3 % of spin
 * bias, their own intervals left out: this gives as much for four motors.
 */
export const BETWEEN_FLIGHTS: Tolerance = { motor: 0.005, offset: { metres: 0, share: 0.0015 }, spin: 0.001 };

/** Of which loads the scatter is asked for. */
interface Scattered {
  /** number of a motor whose own scatter does not count, because its size is what is asked for */
  readonly except?: number | undefined;
  /** by how much each motor's share changed: what a motor differs from the others by cancels only where it carries the same */
  readonly moved?: Float64Array | undefined;
}

/** The covariance with what healthy loads differ by added. */
export function withTolerance(
  layout: Layout,
  covariance: Covariance3,
  tolerance: Tolerance,
  { except, moved }: Scattered = {},
): Covariance3 {
  const reach = reachOf(layout);
  const offset = Math.hypot(tolerance.offset.metres / reach, tolerance.offset.share);
  const motors = Array.from(layout.healthy, (share, i) => ({
    direction: [layout.x[i]! / reach, layout.y[i]! / reach, layout.reaction[i]!] as const,
    spread: i + 1 === except ? 0 : Math.hypot(tolerance.motor * share, BETWEEN_AIRCRAFT.motor * (moved?.[i] ?? 0)),
  }));
  return withUnknowns(covariance, [
    ...motors,
    { direction: [1, 0, 0], spread: offset },
    { direction: [0, 1, 0], spread: offset },
    { direction: [0, 0, 1], spread: tolerance.spin },
  ]);
}

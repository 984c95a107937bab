import { studentTQuantile } from "../../signal/index.ts";
import { type Covariance3, dot, invert3, times, withUnknowns } from "./covariance3.ts";
import type { Explanation, Shift } from "./imbalance-patterns.ts";

/** An unknown of an explanation: its value and half of its 95 % interval. */
export interface SizeOfUnknown {
  readonly value: number;
  readonly half: number;
}

/** More degrees of freedom than this make a normal distribution. */
const MANY = 1e6;

/**
 * The size of one unknown of an explanation by generalised least squares. What else moves the load counts as noise: the
 * explanation's other unknowns, each of its spread, and the scatter among loads of aircraft in order. So the interval
 * holds what these would leave to the unknown; nothing pulls the value itself towards zero.
 *
 * @param k which unknown
 * @param covariance of the shift as measured, with `freedom` degrees of freedom
 * @param noise the same with the scatter that counts; it may be the measured covariance itself
 * @see Satterthwaite 1946, Biometrics Bulletin 2(6):110-114 (degrees of freedom of a sum of variances)
 */
export function sizeOfUnknown(
  { directions, spread }: Pick<Explanation, "directions" | "spread">,
  k: number,
  shift: Shift,
  covariance: Covariance3,
  noise: Covariance3,
  freedom: number,
): SizeOfUnknown {
  const others = directions.flatMap((direction, other) => (other === k ? [] : [{ direction, spread: spread[other]! }]));
  const pulled = times(invert3(withUnknowns(noise, others)).inverse, directions[k]!);
  const variance = 1 / dot(directions[k]!, pulled);
  const weights = pulled.map((value) => value * variance) as unknown as Shift;
  const measured = dot(weights, times(covariance, weights));
  const quantile = studentTQuantile(0.975, Math.min(MANY, freedom * (variance / measured) ** 2));
  return { value: dot(weights, shift), half: quantile * Math.sqrt(variance) };
}

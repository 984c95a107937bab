import { studentTQuantile } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import { reachOf, type Shift } from "./imbalance-patterns.ts";
import { equivalentTilt, type Layout, tiltRange } from "./load-shares.ts";
import type { MeasuredShift } from "./shift-of.ts";
import type { Verdict } from "./verdict.ts";

/**
 * The numbers of a shift: centre of gravity in m, spin bias, the tilt of one motor that would make it, and the loss of
 * the motor where the verdict names one.
 */
export function centreMeasures(
  layout: Layout,
  { shift, covariance }: MeasuredShift,
  verdict: Verdict,
  freedom: number,
) {
  const reach = reachOf(layout);
  const half = studentTQuantile(0.975, freedom);
  const interval = (value: number, sd: number, unit: string): Estimate => ({
    value,
    unit,
    low: value - half * sd,
    high: value + half * sd,
  });
  const sd = (k: number) => Math.sqrt(covariance[4 * k]!);
  const single = verdict.pattern === "single-motor" ? verdict.motors[0] : undefined;
  return {
    "cg-forward": interval(shift[0] * reach, sd(0) * reach, "m"),
    "cg-right": interval(shift[1] * reach, sd(1) * reach, "m"),
    "spin-bias": interval(shift[2], sd(2), "1"),
    ...tiltMeasure(layout, shift[2], half * sd(2)),
    ...(single !== undefined && { loss: lossOf(layout, shift, covariance, verdict.direction!, single, half) }),
  };
}

/** The interval holds the tilt of any one motor, because which one it is cannot be told. */
function tiltMeasure(layout: Layout, bias: number, reach: number): { tilt?: Estimate } {
  if (!layout.isTorqueKnown) return {};
  const value = equivalentTilt(layout, bias);
  const [a, b] = [tiltRange(layout, bias - reach), tiltRange(layout, bias + reach)];
  const [low, high] = [Math.min(a.low, b.low), Math.max(a.high, b.high)];
  return value === undefined || Number.isNaN(low + high) ? {} : { tilt: { value, unit: "rad", low, high } };
}

/** The loss of one motor whose own direction the shift follows: its demand e over what it was, loss = e / (1 + e). */
function lossOf(layout: Layout, shift: Shift, covariance: Float64Array, direction: Shift, motor: number, half: number) {
  const power = direction.reduce((sum, value) => sum + value * value, 0);
  const along = direction.reduce((sum, value, k) => sum + value * shift[k]!, 0) / power;
  let spread = 0;
  for (let at = 0; at < 9; at++) spread += direction[Math.floor(at / 3)]! * direction[at % 3]! * covariance[at]!;
  const reach = (half * Math.sqrt(spread)) / power;
  // The extra demand also raises the total that shares are taken of.
  const loss = (size: number) => {
    const extra = size / (1 - size * layout.healthy[motor - 1]!);
    return extra / (1 + extra);
  };
  return { value: loss(along), unit: "1", low: loss(along - reach), high: loss(along + reach) };
}

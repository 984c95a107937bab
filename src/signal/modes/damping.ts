import { requireBetween, requirePositive } from "../checks.ts";
import { ArgumentError } from "../errors.ts";

/** Share of critical damping of a pole growthRate + j 2 pi frequency. */
export function dampingRatioOf(growthRate: number, frequency: number): number {
  return -growthRate / Math.hypot(growthRate, 2 * Math.PI * frequency);
}

/** Growth rate, 1/s, of an oscillation of a damped frequency in Hz and a damping ratio between -1 and 1. */
export function growthRateOf(dampingRatio: number, frequency: number): number {
  requireBetween(dampingRatio, -1, 1, "dampingRatio");
  return (-dampingRatio * 2 * Math.PI * frequency) / Math.sqrt(1 - dampingRatio ** 2);
}

/** Cycles in which an oscillation halves, or doubles if the damping ratio is below zero; infinite for none. */
export function cyclesToHalf(dampingRatio: number): number {
  requireBetween(dampingRatio, -1, 1, "dampingRatio");
  return (Math.LN2 * Math.sqrt(1 - dampingRatio ** 2)) / (2 * Math.PI * Math.abs(dampingRatio));
}

/** Seconds in which e^(growthRate t) grows (or, below zero, shrinks) by a factor; infinite where it never does. */
export function timeToFactor(growthRate: number, factor: number): number {
  requirePositive(factor, "factor");
  if (factor === 1) return 0;
  if (growthRate === 0) return Number.POSITIVE_INFINITY;
  const time = Math.log(factor) / growthRate;
  if (time < 0) throw new ArgumentError("factor", factor, growthRate > 0 ? "above 1: it grows" : "below 1: it decays");
  return time;
}

import { requireBetween, requirePositive } from "../checks.ts";
import { chiSquareQuantile } from "../statistics/chi-square.ts";

/** Factors from an estimate to the ends of its interval. */
export interface IntervalFactors {
  readonly low: number;
  readonly high: number;
}

/**
 * Interval of a spectral density that is chi-square distributed about the truth: the truth lies between
 * `low` and `high` times the estimate.
 * @param degreesOfFreedom two for each independent average
 * @param confidence default 0.95
 * @see Bendat & Piersol, Random Data, chapter 8
 */
export function densityInterval(degreesOfFreedom: number, confidence = 0.95): IntervalFactors {
  requirePositive(degreesOfFreedom, "degreesOfFreedom");
  requireBetween(confidence, 0, 1, "confidence");
  const tail = (1 - confidence) / 2;
  return {
    low: degreesOfFreedom / chiSquareQuantile(1 - tail, degreesOfFreedom),
    high: degreesOfFreedom / chiSquareQuantile(tail, degreesOfFreedom),
  };
}

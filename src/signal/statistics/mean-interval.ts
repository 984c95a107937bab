import { requireBetween, requireFinite } from "../checks.ts";
import { mean, standardDeviation } from "./moments.ts";
import { studentTQuantile } from "./student-t.ts";

/** A mean with its interval, or the plain statement that there are too few replicates for one. */
export type MeanInterval =
  | {
      readonly kind: "interval";
      readonly mean: number;
      readonly low: number;
      readonly high: number;
      readonly standardError: number;
      readonly replicates: number;
    }
  | { readonly kind: "not-enough-data"; readonly replicates: number; readonly needed: number };

/**
 * Interval of a mean from independent replicates (legs, flights, blocks), by Student's t.
 * Fewer than four replicates say too little of their own spread, and the answer is "not-enough-data".
 * @param replicates one value for each; correlated samples are not replicates, so average each leg or block first
 * @param options confidence, default 0.95
 * @throws NotFiniteError
 * @see Student 1908, Biometrika 6(1):1-25
 */
export function meanInterval(replicates: Float64Array, options: { confidence?: number } = {}): MeanInterval {
  const { confidence = 0.95 } = options;
  const needed = 4;
  requireFinite(replicates, "replicates");
  requireBetween(confidence, 0, 1, "confidence");
  const count = replicates.length;
  if (count < needed) return { kind: "not-enough-data", replicates: count, needed };
  const middle = mean(replicates);
  const standardError = standardDeviation(replicates) / Math.sqrt(count);
  const reach = studentTQuantile((1 + confidence) / 2, count - 1) * standardError;
  return {
    kind: "interval",
    mean: middle,
    low: middle - reach,
    high: middle + reach,
    standardError,
    replicates: count,
  };
}

import { requireBetween, requireFinite, requireSameLength, requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { normalQuantile } from "./normal.ts";
import { median, quantileOfSorted } from "./quantile.ts";

export interface TheilSenLine {
  readonly slope: number;
  /** Median of y minus slope times median of x. */
  readonly intercept: number;
  /** Ends of the slope's interval. */
  readonly low: number;
  readonly high: number;
}

/**
 * A straight line that up to 29 % wild points do not move: the median of the slopes between all pairs of points.
 * The interval supposes independent residuals. Work and memory grow as n²: thin long records first (limit 5000 points).
 * @param x n finite values, not all the same
 * @param y as many
 * @param options confidence of the interval, default 0.95
 * @see Sen 1968, J. Am. Stat. Assoc. 63:1379-1389
 */
export function theilSen(x: Float64Array, y: Float64Array, options: { confidence?: number } = {}): TheilSenLine {
  const { confidence = 0.95 } = options;
  requireSamples(x, 2, "x");
  requireSameLength(x, y, "y");
  requireFinite(y, "y");
  requireBetween(confidence, 0, 1, "confidence");
  if (x.length > 5000) throw new ArgumentError("x", `${x.length} points`, "at most 5000 points", "thin them first");
  const slopes = pairSlopes(x, y);
  if (slopes.length === 0) throw new ArgumentError("x", "one value throughout", "at least two different values");
  const slope = quantileOfSorted(slopes, 0.5);
  const spread = normalQuantile((1 + confidence) / 2) * Math.sqrt(kendallVariance(x, y));
  const last = slopes.length - 1;
  const lower = Math.max(0, Math.round((slopes.length - spread) / 2) - 1);
  const upper = Math.min(last, Math.round((slopes.length + spread) / 2));
  return { slope, intercept: median(y) - slope * median(x), low: slopes[lower]!, high: slopes[upper]! };
}

function pairSlopes(x: Float64Array, y: Float64Array): Float64Array {
  const slopes = new Float64Array((x.length * (x.length - 1)) / 2);
  let count = 0;
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      if (x[i] !== x[j]) slopes[count++] = (y[j]! - y[i]!) / (x[j]! - x[i]!);
    }
  }
  return slopes.subarray(0, count).sort();
}

/** Variance of Kendall's statistic for as many points, allowing for ties. */
function kendallVariance(x: Float64Array, y: Float64Array): number {
  const term = (k: number) => k * (k - 1) * (2 * k + 5);
  const ties = (values: Float64Array) => {
    const counts = new Map<number, number>();
    for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
    return [...counts.values()].reduce((sum, k) => sum + term(k), 0);
  };
  return (term(x.length) - ties(x) - ties(y)) / 18;
}

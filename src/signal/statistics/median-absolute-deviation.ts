import { median } from "./quantile.ts";

/** 1 / (normal quantile of 0.75). */
const normalConsistency = 1.482602218505602;

/**
 * Median distance from the median: a spread that a few wild values do not move.
 * @param options scale: factor, default 1.4826, which makes it the standard deviation of normal data
 * @see Hampel 1974, J. Am. Stat. Assoc. 69:383-393
 */
export function medianAbsoluteDeviation(values: Float64Array, options: { scale?: number } = {}): number {
  const { scale = normalConsistency } = options;
  const middle = median(values);
  return scale * median(values.map((value) => Math.abs(value - middle)));
}

import { requireSamples } from "../checks.ts";
import { autocorrelation } from "./autocorrelation.ts";

/**
 * How many independent values a correlated series is worth for its mean: n over the sum of its autocorrelation, the
 * sum cut off where a pair of neighbouring lags first adds up to less than nothing. Estimated from one short series it
 * is itself uncertain: prefer `meanInterval` over replicates.
 * @param values at least 4
 * @returns from 1 to n
 * @see Bayley & Hammersley 1946, J. R. Stat. Soc. Suppl. 8:184-197; Geyer 1992, Stat. Sci. 7(4):473-483
 */
export function effectiveSampleSize(values: Float64Array): number {
  requireSamples(values, 4, "values");
  const rho = autocorrelation(values);
  let last = 0;
  while (last + 2 < rho.length && rho[last + 1]! + rho[last + 2]! > 0) last += 2;
  return effectiveSampleSizeOf(values.length, rho.subarray(0, last + 1));
}

/**
 * The same from a known autocorrelation: n / (1 + 2 sum (1 - k/n) rho_k), and at least 1 and at most n.
 * @param rho at the lags 0, 1, 2, ...
 */
export function effectiveSampleSizeOf(count: number, rho: ArrayLike<number>): number {
  let sum = 1;
  for (let k = 1; k < rho.length && k < count; k++) sum += 2 * (1 - k / count) * rho[k]!;
  return Math.min(count, Math.max(1, count / sum));
}

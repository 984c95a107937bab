import { requireSamples } from "../checks.ts";
import { autocovariance } from "./autocorrelation.ts";

/** Block lengths for the two ways of resampling, in samples; not whole numbers, and at least 1. */
export interface BlockLength {
  /** Blocks of one fixed length, as the moving-block bootstrap has them. */
  readonly movingBlock: number;
  /** Mean length of the random blocks of the stationary bootstrap. */
  readonly stationary: number;
}

/**
 * Automatic block length for the bootstrap of a mean: from the autocovariance up to the lag after which the
 * autocorrelation stays insignificant, through a flat-top lag window.
 * @param values at least 16; a constant series gets blocks of 1
 * @see Politis & White 2004, Econom. Rev. 23(1):53-70; correction Patton, Politis & White 2009, ibid. 28(4):372-375
 */
export function blockLength(values: Float64Array): BlockLength {
  requireSamples(values, 16, "values");
  const count = values.length;
  const patience = Math.max(5, Math.ceil(Math.sqrt(Math.log10(count))));
  const mostLags = Math.min(count - 1, Math.ceil(Math.sqrt(count)) + patience);
  const covariance = autocovariance(values, mostLags);
  if (!(covariance[0]! > 0)) return { movingBlock: 1, stationary: 1 };
  const limit = 2 * Math.sqrt(Math.log10(count) / count) * covariance[0]!;
  const lastLag = Math.min(2 * lastSignificantLag(covariance, limit, patience), mostLags);
  let longRun = covariance[0]!;
  let slope = 0;
  for (let k = 1; k <= lastLag; k++) {
    const weight = k <= lastLag / 2 ? 1 : 2 * (1 - k / lastLag);
    longRun += 2 * weight * covariance[k]!;
    slope += 2 * weight * k * covariance[k]!;
  }
  const most = Math.ceil(Math.min(3 * Math.sqrt(count), count / 3));
  const length = (constant: number) =>
    Math.min(most, Math.max(1, ((2 * slope ** 2) / (constant * longRun ** 2)) ** (1 / 3) * count ** (1 / 3)));
  return { movingBlock: length(4 / 3), stationary: length(2) };
}

/** The lag after which `patience` lags in a row are insignificant; at least 1. */
function lastSignificantLag(covariance: Float64Array, limit: number, patience: number): number {
  let quiet = 0;
  for (let k = 1; k < covariance.length; k++) {
    quiet = Math.abs(covariance[k]!) < limit ? quiet + 1 : 0;
    if (quiet === patience) return Math.max(1, k - patience);
  }
  let last = covariance.length - 1;
  while (last > 1 && Math.abs(covariance[last]!) < limit) last--;
  return last;
}

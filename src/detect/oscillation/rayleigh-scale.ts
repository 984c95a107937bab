import { quantile } from "../../signal/index.ts";

/** A quantile of Rayleigh's distribution of scale 1: the envelope of narrow-band normal noise of rms 1 (Rice 1944). */
export const rayleighQuantile = (share: number) => Math.sqrt(-2 * Math.log1p(-share));

/** Scales beyond which a value is taken for something else than the noise: 4 % of the noise are. */
const CUT = 2.5;
/** Median of what is below the cut, for a scale of 1. */
const MEDIAN_BELOW = rayleighQuantile(0.5 * (1 - Math.exp(-(CUT ** 2) / 2)));
const MOST_ROUNDS = 30;
const CLOSE = 1e-3;

/**
 * Rms of narrow-band noise from its envelope, some of which is not noise but something larger: the median of what lies
 * below a cut, the cut from the median, until both agree. A plain low quantile takes the quietest part of the noise for
 * all of it, or, where the larger thing fills much of the record, noise that is louder than it is.
 *
 * @param envelope n values of 0 or more in some unit; at least one
 * @param fewest share that is noise at the least: where the cut is first set
 * @returns in the same unit
 * @see Hampel 1974, J. Am. Stat. Assoc. 69:383-393 (the median as a scale that gross errors leave alone)
 */
export function rayleighScale(envelope: Float64Array, fewest: number): number {
  const sorted = Float64Array.from(envelope).sort();
  let scale = quantile(sorted, fewest) / rayleighQuantile(fewest);
  for (let round = 0; round < MOST_ROUNDS && scale > 0; round++) {
    const beyond = sorted.findIndex((value) => value > CUT * scale);
    const next = quantile(beyond === -1 ? sorted : sorted.subarray(0, beyond), 0.5) / MEDIAN_BELOW;
    const isClose = Math.abs(next / scale - 1) < CLOSE;
    scale = next;
    if (isClose) break;
  }
  return scale;
}

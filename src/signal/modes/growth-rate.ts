import { requirePositive, requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { autocovariance } from "../statistics/autocorrelation.ts";
import { type Estimate, estimate } from "./mode.ts";

export interface GrowthRate extends Estimate {
  /** Independent values that the envelope is worth for its slope. */
  readonly effectiveSamples: number;
}

/**
 * Rate of exponential growth (below zero, of decay) of an envelope, 1/s: the slope of its logarithm by least squares.
 * Neighbouring values of an envelope are far from independent; the standard error takes the autocorrelation of the
 * residuals into account, as far as it is positive without a break.
 * @param envelope n values above zero, n of at least 8; leave out ends that a filter or transform has spoiled
 * @param sampleRate samples per second, Hz
 * @param options confidence, default 0.95
 * @throws SignalTooShortError; NotFiniteError; ArgumentError if a value is not above zero
 * @see Newey & West 1987, Econometrica 55(3):703-708; Geyer 1992, Stat. Sci. 7(4):473-483 (where to cut off)
 */
export function growthRate(
  envelope: Float64Array,
  sampleRate: number,
  options: { confidence?: number } = {},
): GrowthRate {
  requirePositive(sampleRate, "sampleRate");
  requireSamples(envelope, 8, "envelope");
  for (const [i, value] of envelope.entries()) {
    if (!(value > 0))
      throw new ArgumentError(`envelope[${i}]`, value, "a value above 0", "cut the envelope where it vanishes");
  }
  const count = envelope.length;
  const logs = envelope.map(Math.log);
  const level = logs.reduce((sum, value) => sum + value, 0) / count;
  const middle = (count - 1) / 2;
  const spread = (count * (count * count - 1)) / 12;
  let slope = 0;
  for (let t = 0; t < count; t++) slope += ((t - middle) * logs[t]!) / spread;
  const residuals = logs.map((value, t) => value - level - slope * (t - middle));
  const covariance = autocovariance(residuals);
  let inflation = 1;
  if (covariance[0]! > 0) {
    for (let lag = 1; lag + 1 < count && covariance[lag]! + covariance[lag + 1]! > 0; lag += 2) {
      for (const k of [lag, lag + 1]) inflation += (2 * slopeOverlap(k, count) * covariance[k]!) / covariance[0]!;
    }
  }
  const effectiveSamples = Math.max(3, count / Math.max(1, inflation));
  const variance = ((covariance[0]! * inflation) / spread) * (effectiveSamples / (effectiveSamples - 2));
  const standardError = Math.sqrt(variance) * sampleRate;
  return { ...estimate(slope * sampleRate, standardError, effectiveSamples - 2, options.confidence), effectiveSamples };
}

/**
 * How much residuals `lag` apart pull the slope the same way: sum (t - m)(t + lag - m) over sum (t - m)² is
 * (1 - u)(1 - 2 u - 2 u²), u = lag / n, of which the biased autocovariance already holds the 1 - u.
 */
function slopeOverlap(lag: number, count: number): number {
  const u = lag / count;
  return 1 - 2 * u - 2 * u * u;
}

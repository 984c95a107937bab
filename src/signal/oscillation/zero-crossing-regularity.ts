import { requireFinite, requireSamples, requireWhole } from "../checks.ts";
import { autocovariance } from "../statistics/autocorrelation.ts";
import { mean, standardDeviation } from "../statistics/moments.ts";

export interface Regularity {
  /** A third of the mean interval over its standard deviation; above 1 the crossings are regular. */
  readonly regularity: number;
  /** Twice the mean interval between crossings, samples. */
  readonly period: number;
  /** Intervals used. */
  readonly intervals: number;
}

/**
 * Regularity of the zero crossings of the autocovariance, which white noise enters at lag 0 only. A lightly damped
 * response to noise is regular too, so look at amplitude and decay ratio as well; and an oscillation beside stronger
 * slow motion is missed unless that is filtered out.
 * @param samples n values, n of at least 16
 * @param options intervals, default 10: as many as are used, from the first crossing on
 * @returns undefined if the autocovariance crosses zero too seldom
 * @see Thornhill, Huang & Zhang 2003, J. Process Control 13(1):91-100
 */
export function zeroCrossingRegularity(
  samples: Float64Array,
  options: { intervals?: number } = {},
): Regularity | undefined {
  requireSamples(samples, 16);
  const { intervals = 10 } = options;
  requireWhole(intervals, 2, "intervals");
  const crossings = zeroCrossings(autocovariance(samples), intervals + 1);
  if (crossings.length <= intervals) return undefined;
  const gaps = Float64Array.from({ length: intervals }, (_, i) => crossings[i + 1]! - crossings[i]!);
  const middle = mean(gaps);
  return { regularity: middle / (3 * standardDeviation(gaps)), period: 2 * middle, intervals };
}

/**
 * Where a signal changes sign, in samples from its start, placed between samples by a straight line.
 * @param most stop after so many; default all
 */
export function zeroCrossings(samples: Float64Array, most = Number.POSITIVE_INFINITY): number[] {
  requireFinite(samples, "samples");
  const out: number[] = [];
  for (let i = 1; i < samples.length && out.length < most; i++) {
    const [a, b] = [samples[i - 1]!, samples[i]!];
    if (a < 0 !== b < 0) out.push(i - 1 + a / (a - b));
  }
  return out;
}

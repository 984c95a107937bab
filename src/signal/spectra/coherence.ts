import { requireBetween } from "../checks.ts";
import { type CrossSpectralDensity, crossSpectralDensity } from "./cross-spectral-density.ts";
import type { SegmentOptions, Stretches } from "./segments.ts";

/** How much of the second signal follows linearly from the first. */
export interface Coherence {
  /** Hz. */
  readonly frequency: Float64Array;
  /** Squared magnitude, 0 to 1. */
  readonly coherence: Float64Array;
  /** Coherence that two unrelated signals stay below in 95 % of bins. */
  readonly significanceLevel: number;
  /** Independent averages that the overlapping segments are worth. */
  readonly effectiveAverages: number;
}

/**
 * Magnitude-squared coherence by Welch's method. From a single segment it is 1 everywhere and says nothing.
 * @param first n uniformly spaced values, or several such stretches
 * @param second as many values at the same instants
 * @param sampleRate samples per second, Hz
 * @param options as for `crossSpectralDensity`
 * @see Carter, Knapp & Nuttall 1973, IEEE Trans. Audio Electroacoust. 21(4):337-344
 */
export function coherence(
  first: Stretches,
  second: Stretches,
  sampleRate: number,
  options: SegmentOptions = {},
): Coherence {
  const density = crossSpectralDensity(first, second, sampleRate, options);
  return {
    frequency: density.frequency,
    coherence: coherenceOf(density),
    significanceLevel: coherenceSignificanceLevel(density.effectiveAverages),
    effectiveAverages: density.effectiveAverages,
  };
}

/** |Pxy|² / (Pxx Pyy); 0 where either signal has no power. */
export function coherenceOf({ re, im, first, second }: CrossSpectralDensity): Float64Array {
  return re.map((value, k) => {
    const power = first[k]! * second[k]!;
    return power > 0 ? Math.min(1, (value * value + im[k]! * im[k]!) / power) : 0;
  });
}

/**
 * Coherence that unrelated signals exceed with the given probability.
 * @param averages independent averages; with one or fewer the level is 1
 * @param probability default 0.05
 * @see Thompson 1979, J. Atmos. Sci. 36:2020-2021
 */
export function coherenceSignificanceLevel(averages: number, probability = 0.05): number {
  requireBetween(probability, 0, 1, "probability");
  return averages > 1 ? 1 - probability ** (1 / (averages - 1)) : 1;
}

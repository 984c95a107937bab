import { magnitude, phase } from "../complex-array.ts";
import { coherenceOf } from "./coherence.ts";
import { crossSpectralDensity } from "./cross-spectral-density.ts";
import type { SegmentOptions, Stretches } from "./segments.ts";

/** An estimated frequency response with its random error. */
export interface FrequencyResponse {
  /** Hz. */
  readonly frequency: Float64Array;
  /** Real part, v/u. */
  readonly re: Float64Array;
  /** Imaginary part, v/u. */
  readonly im: Float64Array;
  /** v/u. */
  readonly magnitude: Float64Array;
  /** rad, from -pi to pi. */
  readonly phase: Float64Array;
  /** Magnitude-squared coherence, 0 to 1. */
  readonly coherence: Float64Array;
  /** Standard deviation of the magnitude over the magnitude; the same number is that of the phase in rad. */
  readonly relativeError: Float64Array;
  /** Independent averages that the overlapping segments are worth. */
  readonly effectiveAverages: number;
}

/**
 * Frequency response from input to output by the H1 estimator, Pxy / Pxx: unbiased by noise on the output, low where
 * the input itself is noisy. Under feedback, noise that runs round the loop biases it.
 * @param input n uniformly spaced values in some unit u, or several such stretches
 * @param output as many values in some unit v, at the same instants
 * @param sampleRate samples per second, Hz
 * @param options as for `crossSpectralDensity`
 * @returns zero response with an infinite error where the input has no power
 * @see Bendat & Piersol, Random Data, chapters 6 and 9
 */
export function frequencyResponse(
  input: Stretches,
  output: Stretches,
  sampleRate: number,
  options: SegmentOptions = {},
): FrequencyResponse {
  const density = crossSpectralDensity(input, output, sampleRate, options);
  const divide = (value: number, k: number) => (density.first[k]! > 0 ? value / density.first[k]! : 0);
  const response = { re: density.re.map(divide), im: density.im.map(divide) };
  const coherence = coherenceOf(density);
  return {
    frequency: density.frequency,
    ...response,
    magnitude: magnitude(response),
    phase: phase(response),
    coherence,
    relativeError: coherence.map((value) => frequencyResponseError(value, density.effectiveAverages)),
    effectiveAverages: density.effectiveAverages,
  };
}

/**
 * Random error of a frequency response: of its magnitude, relative, and of its phase, in rad.
 * @param coherence magnitude-squared, 0 to 1
 * @param averages independent averages
 * @see Bendat & Piersol, Random Data, chapter 9: sqrt(1 - g²) / (|g| sqrt(2 n))
 */
export function frequencyResponseError(coherence: number, averages: number): number {
  return coherence > 0 ? Math.sqrt((1 - coherence) / (2 * coherence * averages)) : Number.POSITIVE_INFINITY;
}

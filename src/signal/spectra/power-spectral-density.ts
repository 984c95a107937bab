import { realSpectrumPlan } from "../fourier/real-spectrum.ts";
import { densityInterval } from "./density-interval.ts";
import { effectiveAverages } from "./effective-averages.ts";
import {
  type SegmentOptions,
  type Stretches,
  scaleOneSided,
  segmentation,
  stretchesOf,
  transformSegment,
} from "./segments.ts";

export interface WelchOptions extends SegmentOptions {
  /** Confidence of the interval; default 0.95. */
  readonly confidence?: number;
}

/** A one-sided power spectral density with its interval. */
export interface SpectralDensity {
  /** Hz, from 0 to half the sample rate. */
  readonly frequency: Float64Array;
  /** u²/Hz, where u is the unit of the samples. */
  readonly density: Float64Array;
  /** Lower end of each bin's interval, u²/Hz. */
  readonly low: Float64Array;
  /** Upper end of each bin's interval, u²/Hz. */
  readonly high: Float64Array;
  /** Of the chi-square distribution; at frequency 0 and at the Nyquist bin half as many. */
  readonly degreesOfFreedom: number;
  /** Segments averaged. */
  readonly segments: number;
}

/**
 * One-sided power spectral density by Welch's method: the mean of windowed, overlapping periodograms.
 *
 * Several stretches are averaged together and no segment crosses the gap between two; a stretch shorter than a segment,
 * and what is left over at the end of one, is not used. The interval allows for the correlation of overlapping segments.
 * @param samples n uniformly spaced values in some unit u, or several such stretches; read, never written
 * @param sampleRate samples per second, Hz
 * @param options segmentLength (default 1024), overlap (0.5), window ("hann", periodic), detrend ("constant"),
 *   confidence (0.95)
 * @returns `frequency`, `density`, `low` and `high`, each floor(segmentLength / 2) + 1 long
 * @throws SignalTooShortError if no stretch holds a segment; NotFiniteError; ArgumentError
 * @see Welch 1967, IEEE Trans. Audio Electroacoust. 15(2):70-73
 */
export function powerSpectralDensity(
  samples: Stretches,
  sampleRate: number,
  options: WelchOptions = {},
): SpectralDensity {
  const plan = segmentation(samples, sampleRate, options);
  const spectrum = realSpectrumPlan(plan.length);
  const density = new Float64Array(plan.frequency.length);
  let segments = 0;
  for (const [index, stretch] of stretchesOf(samples).entries()) {
    for (let segment = 0; segment < plan.counts[index]!; segment++, segments++) {
      transformSegment(stretch, segment * plan.step, plan, spectrum);
      addPower(density, spectrum.re, spectrum.im);
    }
  }
  scaleOneSided(density, plan, segments);
  const degreesOfFreedom = 2 * effectiveAverages(plan.counts, plan.weights, plan.step);
  return { frequency: plan.frequency, ...withInterval(density, degreesOfFreedom, options.confidence), segments };
}

/** Adds |X|² to the sums. */
export function addPower(sums: Float64Array, re: Float64Array, im: Float64Array): void {
  for (let k = 0; k < sums.length; k++) sums[k] = sums[k]! + re[k]! * re[k]! + im[k]! * im[k]!;
}

/** A density together with the ends of its interval. */
export function withInterval(density: Float64Array, degreesOfFreedom: number, confidence?: number) {
  const factors = densityInterval(degreesOfFreedom, confidence);
  return {
    density,
    low: density.map((value) => value * factors.low),
    high: density.map((value) => value * factors.high),
    degreesOfFreedom,
  };
}

import { requireSameLength } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { type RealSpectrumPlan, realSpectrumPlan } from "../fourier/real-spectrum.ts";
import { effectiveAverages } from "./effective-averages.ts";
import { addPower } from "./power-spectral-density.ts";
import {
  type SegmentOptions,
  type Stretches,
  scaleOneSided,
  segmentation,
  stretchesOf,
  transformSegment,
} from "./segments.ts";

/** One-sided spectral densities of two signals and between them. */
export interface CrossSpectralDensity {
  /** Hz, from 0 to half the sample rate. */
  readonly frequency: Float64Array;
  /** Real part of the density between them, u·v/Hz. */
  readonly re: Float64Array;
  /** Imaginary part; below zero where the second signal lags the first by less than half a period. */
  readonly im: Float64Array;
  /** Density of the first signal, u²/Hz. */
  readonly first: Float64Array;
  /** Density of the second signal, v²/Hz. */
  readonly second: Float64Array;
  /** Segments averaged. */
  readonly segments: number;
  /** Independent averages that the overlapping segments are worth. */
  readonly effectiveAverages: number;
}

/**
 * One-sided cross spectral density by Welch's method: the mean over segments of conj(X) Y.
 * @param first n uniformly spaced values in some unit u, or several such stretches
 * @param second as many values, in some unit v, taken at the same instants
 * @param sampleRate samples per second, Hz
 * @param options segmentLength (default 1024), overlap (0.5), window ("hann"), detrend ("constant")
 * @throws ArgumentError if the lengths differ; SignalTooShortError; NotFiniteError
 * @see Welch 1967, IEEE Trans. Audio Electroacoust. 15(2):70-73; Bendat & Piersol, Random Data, chapter 11
 */
export function crossSpectralDensity(
  first: Stretches,
  second: Stretches,
  sampleRate: number,
  options: SegmentOptions = {},
): CrossSpectralDensity {
  const partners = stretchesOf(second);
  const stretches = stretchesOf(first);
  if (partners.length !== stretches.length) {
    throw new ArgumentError(
      "second",
      `${partners.length} stretches`,
      `as many stretches as first (${stretches.length})`,
    );
  }
  for (const [index, stretch] of stretches.entries()) requireSameLength(stretch, partners[index]!, "second");
  segmentation(second, sampleRate, options);
  const plan = segmentation(first, sampleRate, options);
  const bins = plan.frequency.length;
  const sums = { re: new Float64Array(bins), im: new Float64Array(bins) };
  const power = { first: new Float64Array(bins), second: new Float64Array(bins) };
  const x = { re: new Float64Array(bins), im: new Float64Array(bins) };
  const spectrum: RealSpectrumPlan = realSpectrumPlan(plan.length);
  let segments = 0;
  for (const [index, stretch] of stretches.entries()) {
    for (let segment = 0; segment < plan.counts[index]!; segment++, segments++) {
      const start = segment * plan.step;
      transformSegment(stretch, start, plan, spectrum);
      addPower(power.first, spectrum.re, spectrum.im);
      x.re.set(spectrum.re);
      x.im.set(spectrum.im);
      transformSegment(partners[index]!, start, plan, spectrum);
      addPower(power.second, spectrum.re, spectrum.im);
      for (let k = 0; k < bins; k++) {
        sums.re[k] = sums.re[k]! + x.re[k]! * spectrum.re[k]! + x.im[k]! * spectrum.im[k]!;
        sums.im[k] = sums.im[k]! + x.re[k]! * spectrum.im[k]! - x.im[k]! * spectrum.re[k]!;
      }
    }
  }
  return {
    frequency: plan.frequency,
    re: scaleOneSided(sums.re, plan, segments),
    im: scaleOneSided(sums.im, plan, segments),
    first: scaleOneSided(power.first, plan, segments),
    second: scaleOneSided(power.second, plan, segments),
    segments,
    effectiveAverages: effectiveAverages(plan.counts, plan.weights, plan.step),
  };
}

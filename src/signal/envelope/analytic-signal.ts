import { requireFinite, requirePositive, requireSamples } from "../checks.ts";
import type { ComplexArray } from "../complex-array.ts";
import { inverseRealSpectrum, realSpectrum } from "../fourier/real-spectrum.ts";
import { addScaled } from "../linear-algebra/add-scaled.ts";

/**
 * The analytic signal: the signal as real part, its Hilbert transform as imaginary part. The exact transform of the
 * given length, without padding; like any such transform it takes the signal to be periodic, so the ends of one that
 * is not are the less to be trusted, over about a period of its slowest part.
 * @param samples n values, n of at least 1
 * @returns n complex values
 * @see Marple 1999, IEEE Trans. Signal Process. 47(9):2600-2603
 */
export function analyticSignal(samples: Float64Array): ComplexArray {
  requireSamples(samples, 1);
  const count = samples.length;
  const { re, im } = realSpectrum(samples);
  // The Hilbert transform turns every frequency back by a quarter; level and half the sample rate have no quarter.
  const turned = new Float64Array(re.length);
  addScaled(turned, -1, re);
  turned[0] = 0;
  if (count % 2 === 0) turned[count / 2] = 0;
  return { re: samples.slice(), im: inverseRealSpectrum({ re: im, im: turned }, count) };
}

/**
 * Instantaneous phase, made continuous, rad. Meaningful for a signal of one slowly varying frequency: filter first.
 * @param samples n values, or an analytic signal
 */
export function instantaneousPhase(samples: Float64Array | ComplexArray): Float64Array {
  const { re, im } = samples instanceof Float64Array ? analyticSignal(samples) : samples;
  return unwrapPhase(re.map((x, i) => Math.atan2(im[i]!, x)));
}

/**
 * Instantaneous frequency, Hz: the advance of phase from each sample to the next.
 * @param samples n values, or an analytic signal
 * @param sampleRate samples per second, Hz
 * @returns n - 1 values, each for the instant midway between two samples
 */
export function instantaneousFrequency(samples: Float64Array | ComplexArray, sampleRate: number): Float64Array {
  requirePositive(sampleRate, "sampleRate");
  const angle = instantaneousPhase(samples);
  return Float64Array.from(
    { length: Math.max(0, angle.length - 1) },
    (_, i) => ((angle[i + 1]! - angle[i]!) * sampleRate) / (2 * Math.PI),
  );
}

/** Adds whole turns wherever a phase in rad steps by more than half of one. */
export function unwrapPhase(angles: Float64Array): Float64Array {
  requireFinite(angles, "angles");
  const out = angles.slice();
  let turns = 0;
  for (let i = 1; i < angles.length; i++) {
    turns -= Math.round((angles[i]! - angles[i - 1]!) / (2 * Math.PI));
    out[i] = angles[i]! + 2 * Math.PI * turns;
  }
  return out;
}

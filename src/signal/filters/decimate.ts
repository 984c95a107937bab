import { requirePositive, requireSamples, requireWhole } from "../checks.ts";
import { butterworth } from "./butterworth.ts";
import { filterZeroPhase } from "./filter-zero-phase.ts";

export interface Decimated {
  /** Every factor-th sample of the filtered signal, beginning with the first. */
  readonly values: Float64Array;
  /** Samples per second, Hz. */
  readonly sampleRate: number;
  /** Up to this frequency the signal is kept within 0.1 dB, Hz. */
  readonly bandwidth: number;
}

/** Order 8 run both ways, cut off at 0.8 of the new Nyquist frequency: 0.1 dB down at 0.6 of it, 31 dB down at it. */
const order = 8;
const cutoffShare = 0.8;

/**
 * Lowers the sample rate by a whole factor, after a zero-phase Butterworth filter that keeps higher frequencies from
 * folding into the result. Attenuation is 6 dB at 0.8, 31 dB at 1 and 64 dB at 1.27 of the new Nyquist frequency.
 * @param samples n uniformly spaced values
 * @param sampleRate samples per second, Hz
 * @param factor whole number; 1 gives a copy
 * @returns ceil(n / factor) values
 * @throws SignalTooShortError; NotFiniteError; ArgumentError
 */
export function decimate(samples: Float64Array, sampleRate: number, factor: number): Decimated {
  requirePositive(sampleRate, "sampleRate");
  requireWhole(factor, 1, "factor");
  if (factor === 1) {
    requireSamples(samples, 1);
    return { values: samples.slice(), sampleRate, bandwidth: sampleRate / 2 };
  }
  const newRate = sampleRate / factor;
  const smooth = filterZeroPhase(butterworth(order, (cutoffShare * newRate) / 2, sampleRate), samples);
  const values = new Float64Array(Math.ceil(samples.length / factor));
  for (let i = 0; i < values.length; i++) values[i] = smooth[i * factor]!;
  // |H|⁴ of a two-way filter of order n is 0.1 dB down where (f / fc)^2n = 10^(0.1/20) - 1.
  const bandwidth = ((cutoffShare * newRate) / 2) * (10 ** (0.1 / 20) - 1) ** (1 / (2 * order));
  return { values, sampleRate: newRate, bandwidth };
}

import { requireSamples, requireWhole } from "../checks.ts";
import { nextPowerOfTwo } from "../fourier/next-power-of-two.ts";
import { realSpectrumPlan } from "../fourier/real-spectrum.ts";
import { centred } from "./moments.ts";

/**
 * Autocovariance about the mean, divided by n at every lag (biased, and so never giving negative power).
 * Computed with a transform padded to twice the length and more, which makes it exact.
 * @param samples n values
 * @param maxLag default n - 1
 * @returns maxLag + 1 values, for the lags 0 to maxLag
 */
export function autocovariance(samples: Float64Array, maxLag = samples.length - 1): Float64Array {
  requireSamples(samples, 1);
  requireWhole(maxLag, 0, "maxLag", samples.length - 1);
  const count = samples.length;
  return productSums(centred(samples), maxLag).map((value) => value / count);
}

/** Sums of samples[t] samples[t + lag] for the lags 0 to maxLag; the mean is not taken off. */
function productSums(samples: Float64Array, maxLag: number): Float64Array {
  const count = samples.length;
  const length = Math.max(4, nextPowerOfTwo(count + maxLag + 1));
  const plan = realSpectrumPlan(length);
  plan.samples.fill(0);
  plan.samples.set(samples);
  plan.run();
  // The power is real and even, so that a forward transform of it serves as the inverse one.
  const power = plan.re.map((re, k) => re * re + plan.im[k]! * plan.im[k]!);
  for (let k = 0; k < length; k++) plan.samples[k] = power[k <= length / 2 ? k : length - k]!;
  plan.run();
  return plan.re.slice(0, maxLag + 1).map((value) => value / length);
}

/** Autocovariance over its value at lag 0; all zeros after lag 0 for a constant signal. */
export function autocorrelation(samples: Float64Array, maxLag?: number): Float64Array {
  const covariance = autocovariance(samples, maxLag);
  const power = covariance[0]!;
  return covariance.map((value, lag) => (power > 0 ? value / power : lag === 0 ? 1 : 0));
}

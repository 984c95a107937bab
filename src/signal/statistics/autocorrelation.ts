import { requireSamples, requireWhole } from "../checks.ts";
import { nextPowerOfTwo } from "../fourier/next-power-of-two.ts";
import { inverseRealSpectrum, realSpectrum } from "../fourier/real-spectrum.ts";
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
  const { re, im } = realSpectrum(samples, length);
  const power = re.map((value, k) => value * value + im[k]! * im[k]!);
  return inverseRealSpectrum({ re: power, im: new Float64Array(power.length) }, length).slice(0, maxLag + 1);
}

/** Autocovariance over its value at lag 0; all zeros after lag 0 for a constant signal. */
export function autocorrelation(samples: Float64Array, maxLag?: number): Float64Array {
  const covariance = autocovariance(samples, maxLag);
  const power = covariance[0]!;
  return covariance.map((value, lag) => (power > 0 ? value / power : lag === 0 ? 1 : 0));
}

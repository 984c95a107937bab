import { requireBetween, requirePositive, requireSamples } from "../checks.ts";
import { butterworth } from "./butterworth.ts";
import { filterZeroPhase } from "./filter-zero-phase.ts";

/**
 * Rate of change up to a stated bandwidth: a zero-phase low-pass filter, 3 dB down at the bandwidth, then central
 * differences of fourth order (one-sided at the two ends). Noise above the bandwidth does not swamp the result.
 * @param samples n uniformly spaced values in some unit u; at least 5
 * @param sampleRate samples per second, Hz
 * @param bandwidth Hz, below 0.2 of the sample rate, where the differences themselves are 4.5 % low
 * @returns n values in u/s
 * @throws SignalTooShortError; NotFiniteError; ArgumentError
 */
export function differentiate(samples: Float64Array, sampleRate: number, bandwidth: number): Float64Array {
  requirePositive(sampleRate, "sampleRate");
  const remedy = "central differences do not reach higher; raise the sample rate";
  requireSamples(samples, 5);
  requireBetween(bandwidth, 0, 0.2 * sampleRate, "bandwidth", remedy);
  const order = 4;
  // Two passes are 6 dB down at the cut-off: move it up until 3 dB falls on the bandwidth.
  const cutoff = bandwidth / (Math.SQRT2 - 1) ** (1 / (2 * order));
  // Two periods of the bandwidth let the filter settle on a trend before the first sample comes.
  const padding = Math.max(0, Math.min(samples.length - 1, Math.ceil((2 * sampleRate) / bandwidth)));
  const smooth = filterZeroPhase(butterworth(order, cutoff, sampleRate), samples, { padding });
  const out = new Float64Array(smooth.length);
  const last = smooth.length - 1;
  for (let i = 0; i <= last; i++) {
    if (i >= 2 && i <= last - 2) {
      out[i] = ((8 * (smooth[i + 1]! - smooth[i - 1]!) - (smooth[i + 2]! - smooth[i - 2]!)) * sampleRate) / 12;
    } else {
      const [left, right] = [Math.max(0, i - 1), Math.min(last, i + 1)];
      out[i] = ((smooth[right]! - smooth[left]!) * sampleRate) / (right - left);
    }
  }
  return out;
}

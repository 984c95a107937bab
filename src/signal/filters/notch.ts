import { requireBelowNyquist, requirePositive } from "../checks.ts";
import type { SecondOrderSections } from "./second-order-sections.ts";

/**
 * A filter that takes out one frequency and passes the rest.
 * @param frequency taken out, Hz
 * @param quality the frequency over the width of the notch at half power
 * @param sampleRate samples per second, Hz
 * @see Orfanidis 1996, Introduction to Signal Processing, section 11.3
 */
export function notch(frequency: number, quality: number, sampleRate: number): SecondOrderSections {
  requirePositive(sampleRate, "sampleRate");
  requireBelowNyquist(frequency, sampleRate, "frequency");
  requirePositive(quality, "quality");
  const angle = (2 * Math.PI * frequency) / sampleRate;
  const gain = 1 / (1 + Math.tan(angle / quality / 2));
  const middle = -2 * gain * Math.cos(angle);
  return { coefficients: Float64Array.of(gain, middle, gain, middle, 2 * gain - 1), sections: 1, sampleRate };
}

import { requirePositive } from "../checks.ts";

/**
 * Where a frequency appears once sampled: folded into 0 to half the sample rate.
 * @param frequency true frequency, Hz
 * @param sampleRate samples per second, Hz
 */
export function aliasedFrequency(frequency: number, sampleRate: number): number {
  requirePositive(sampleRate, "sampleRate");
  return Math.abs(frequency - sampleRate * Math.round(frequency / sampleRate));
}

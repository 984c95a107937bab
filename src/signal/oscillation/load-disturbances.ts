import { requirePositive, requireSamples } from "../checks.ts";

export interface LoadDisturbanceOptions {
  /** Smallest amplitude of an oscillation at the ultimate frequency that counts, in the unit of the error. */
  readonly amplitude: number;
  /** At which the loop would oscillate, Hz. */
  readonly ultimateFrequency: number;
  /** Disturbances that make an oscillation; default 10. */
  readonly limit?: number;
}

export interface LoadDisturbances {
  /** How many times the error's integral between zero crossings was large enough. */
  readonly count: number;
  /** The count with forgetting, after each sample; disturbances older than some 50 ultimate periods fade. */
  readonly score: Float64Array;
  /** First index at which the score reaches the limit; undefined if it never does. */
  readonly alarm: number | undefined;
}

/**
 * Counts load disturbances: half-periods of a control error whose absolute integral exceeds that of a sine of the given
 * amplitude at the ultimate frequency, 2 a / omega. Ten within 50 ultimate periods are an oscillation. Slow oscillations
 * weigh more than fast ones, on purpose; one well above the ultimate frequency is not found.
 * @param error set point minus actual value, n uniformly spaced samples
 * @param sampleRate samples per second, Hz
 * @see Hagglund 1995, Control Eng. Practice 3(11):1543-1551
 */
export function loadDisturbances(
  error: Float64Array,
  sampleRate: number,
  options: LoadDisturbanceOptions,
): LoadDisturbances {
  const { amplitude, ultimateFrequency, limit = 10 } = options;
  requirePositive(sampleRate, "sampleRate");
  requireSamples(error, 2, "error");
  requirePositive(amplitude, "amplitude");
  requirePositive(ultimateFrequency, "ultimateFrequency");
  requirePositive(limit, "limit");
  const smallest = (2 * amplitude) / (2 * Math.PI * ultimateFrequency);
  const keep = 1 - ultimateFrequency / (5 * limit * sampleRate);
  const score = new Float64Array(error.length);
  let [count, integral, level] = [0, 0, 0];
  let alarm: number | undefined;
  for (let i = 0; i < error.length; i++) {
    level *= keep;
    if (i > 0 && error[i]! < 0 !== error[i - 1]! < 0) {
      if (integral > smallest) {
        count++;
        level++;
      }
      integral = 0;
    }
    integral += Math.abs(error[i]!) / sampleRate;
    score[i] = level;
    if (alarm === undefined && level >= limit) alarm = i;
  }
  return { count, score, alarm };
}

import { requireBetween, requireSamples } from "../checks.ts";
import { effectiveSampleSize } from "./effective-sample-size.ts";
import { normalCdf } from "./normal.ts";

export interface ChangePoint {
  /** First index of the new level. */
  readonly index: number;
  /** Ends of the interval of `index`. */
  readonly low: number;
  readonly high: number;
  /** Means before and from the change on. */
  readonly before: number;
  readonly after: number;
  /** Standard deviation about the two means. */
  readonly deviation: number;
  /** Probability of as large a swing of the cumulative sum without any change, correlation allowed for. */
  readonly pValue: number;
}

/**
 * The one change of level that explains a series best in the least-squares sense, in either direction, with the
 * uncertainty of its place. There is always a best one: believe it only where `pValue` is small.
 * @param values at least 8
 * @param options confidence of the place's interval, default 0.95
 * @returns for a constant series: no change (p of 1), placed in the middle
 * @see Bai 1997, Rev. Econ. Stat. 79(4):551-563 (place); Ploberger & Kramer 1992, Econometrica 60(2):271-285 (test)
 */
export function changePoint(values: Float64Array, options: { confidence?: number } = {}): ChangePoint {
  const { confidence = 0.95 } = options;
  requireSamples(values, 8, "values");
  requireBetween(confidence, 0, 1, "confidence");
  const count = values.length;
  const total = values.reduce((sum, value) => sum + value, 0);
  let [index, gain, swing, sum] = [count >> 1, 0, 0, 0];
  for (let k = 1; k < count; k++) {
    sum += values[k - 1]!;
    const drift = sum - (k * total) / count;
    const explained = (drift * drift * count) / (k * (count - k));
    swing = Math.max(swing, Math.abs(drift));
    if (explained > gain) [index, gain] = [k, explained];
  }
  const before = values.subarray(0, index).reduce((part, value) => part + value, 0) / index;
  const after = values.subarray(index).reduce((part, value) => part + value, 0) / (count - index);
  const residuals = values.map((value, i) => value - (i < index ? before : after));
  const deviation = Math.sqrt(residuals.reduce((part, value) => part + value * value, 0) / (count - 2));
  if (deviation === 0 && before === after) {
    return { index, low: 1, high: count - 1, before, after, deviation, pValue: 1 };
  }
  // Correlated residuals wander more than their own size says: their long-run deviation counts.
  const longRun = deviation > 0 ? deviation * Math.sqrt(count / effectiveSampleSize(residuals)) : 0;
  const reach = Math.floor(changeQuantile((1 + confidence) / 2) * (longRun / (after - before)) ** 2) + 1;
  return {
    index,
    low: Math.max(1, index - reach),
    high: Math.min(count - 1, index + reach),
    before,
    after,
    deviation,
    pValue: longRun > 0 ? bridgeTail(swing / (longRun * Math.sqrt(count))) : 0,
  };
}

/** Quantile of the place at which a two-sided random walk with triangular drift is highest (Bai 1997, appendix B). */
function changeQuantile(probability: number): number {
  const distribution = (x: number) =>
    1 +
    Math.sqrt(x / (2 * Math.PI)) * Math.exp(-x / 8) -
    ((x + 5) / 2) * normalCdf(-Math.sqrt(x) / 2) +
    1.5 * Math.exp(x) * normalCdf((-3 * Math.sqrt(x)) / 2);
  let [low, high] = [0, 1];
  while (distribution(high) < probability) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (distribution(middle) < probability) low = middle;
    else high = middle;
  }
  return high;
}

/** Probability that a Brownian bridge somewhere passes x, on either side (Kolmogorov's distribution). */
function bridgeTail(x: number): number {
  if (x < 0.2) return 1;
  let sum = 0;
  for (let j = 1; j <= 100; j++) sum += (j % 2 === 1 ? 2 : -2) * Math.exp(-2 * j * j * x * x);
  return Math.min(1, Math.max(0, sum));
}

import { requireBetween, requireSamples } from "../checks.ts";
import { mean, variance } from "./moments.ts";
import { studentTQuantile, studentTTwoSided } from "./student-t.ts";

export interface TwoSampleTest {
  readonly t: number;
  readonly degreesOfFreedom: number;
  /** Two-sided. */
  readonly pValue: number;
  /** Mean of the first less mean of the second. */
  readonly difference: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Welch's test of two independent samples whose variances may differ.
 * @param options confidence of the difference's interval, default 0.95
 * @returns where neither sample varies: t of 0 or plus or minus infinity and p of 1 or 0
 * @see Welch 1947, Biometrika 34:28-35
 */
export function welchTTest(
  first: Float64Array,
  second: Float64Array,
  options: { confidence?: number } = {},
): TwoSampleTest {
  const { confidence = 0.95 } = options;
  requireSamples(first, 2, "first");
  requireSamples(second, 2, "second");
  requireBetween(confidence, 0, 1, "confidence");
  const difference = mean(first) - mean(second);
  const [a, b] = [variance(first) / first.length, variance(second) / second.length];
  if (a + b === 0) {
    const t = difference === 0 ? 0 : Math.sign(difference) * Number.POSITIVE_INFINITY;
    const degreesOfFreedom = first.length + second.length - 2;
    return { t, degreesOfFreedom, pValue: difference === 0 ? 1 : 0, difference, low: difference, high: difference };
  }
  const error = Math.sqrt(a + b);
  const degreesOfFreedom = (a + b) ** 2 / (a ** 2 / (first.length - 1) + b ** 2 / (second.length - 1));
  const t = difference / error;
  const reach = error * studentTQuantile((1 + confidence) / 2, degreesOfFreedom);
  return {
    t,
    degreesOfFreedom,
    pValue: studentTTwoSided(t, degreesOfFreedom),
    difference,
    low: difference - reach,
    high: difference + reach,
  };
}

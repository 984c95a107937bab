import { requireBetween, requirePositive } from "../checks.ts";
import { normalQuantile } from "./normal.ts";

export interface RatioInterval {
  readonly ratio: number;
  readonly low: number;
  /** Infinite where the lower part is not certain to be other than zero. */
  readonly high: number;
}

/**
 * Interval of the ratio of two independent means above zero, such as the power of two legs, by Fieller's theorem.
 * @param upper value and its standard error
 * @param lower likewise
 * @param options confidence, default 0.95
 * @see Fieller 1954, J. R. Stat. Soc. B 16(2):175-185
 */
export function ratioInterval(
  upper: { value: number; standardError: number },
  lower: { value: number; standardError: number },
  options: { confidence?: number } = {},
): RatioInterval {
  const { confidence = 0.95 } = options;
  requirePositive(upper.value, "upper.value");
  requirePositive(lower.value, "lower.value");
  requireBetween(confidence, 0, 1, "confidence");
  const z = normalQuantile((1 + confidence) / 2);
  const ratio = upper.value / lower.value;
  const a = lower.value ** 2 - (z * lower.standardError) ** 2;
  const b = upper.value * lower.value;
  const c = upper.value ** 2 - (z * upper.standardError) ** 2;
  if (a <= 0) return { ratio, low: Math.max(0, c / (2 * b)), high: Number.POSITIVE_INFINITY };
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  return { ratio, low: Math.max(0, (b - root) / a), high: (b + root) / a };
}

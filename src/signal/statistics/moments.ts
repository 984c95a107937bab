import { requireSamples } from "../checks.ts";

/** Arithmetic mean of at least one value. */
export function mean(values: ArrayLike<number>): number {
  requireSamples(values, 1, "values");
  // Two sums side by side: in one, each addition waits for the one before.
  let even = 0;
  let odd = 0;
  const pairs = values.length & ~1;
  for (let i = 0; i < pairs; i += 2) {
    even += values[i]!;
    odd += values[i + 1]!;
  }
  return (even + odd + (pairs < values.length ? values[pairs]! : 0)) / values.length;
}

/** Sample variance of at least two values: squares about the mean, over n - 1. */
export function variance(values: ArrayLike<number>): number {
  requireSamples(values, 2, "values");
  const middle = mean(values);
  let squares = 0;
  for (let i = 0; i < values.length; i++) squares += (values[i]! - middle) ** 2;
  return squares / (values.length - 1);
}

/** Square root of the sample variance. */
export function standardDeviation(values: ArrayLike<number>): number {
  return Math.sqrt(variance(values));
}

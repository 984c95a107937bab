import { requireSamples } from "../checks.ts";

/** Arithmetic mean of at least one value. */
export function mean(values: ArrayLike<number>): number {
  requireSamples(values, 1, "values");
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
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

import { requireCount, requireFinite } from "../checks.ts";

/** Arithmetic mean of at least one value. */
export function mean(values: ArrayLike<number>): number {
  requireCount(values, 1, "values");
  // Four sums side by side: in one, each addition waits for the one before.
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  const whole = values.length & ~3;
  for (let i = 0; i < whole; i += 4) {
    a += values[i]!;
    b += values[i + 1]!;
    c += values[i + 2]!;
    d += values[i + 3]!;
  }
  let sum = a + b + (c + d);
  for (let i = whole; i < values.length; i++) sum += values[i]!;
  // A value that is not finite leaves no sum that is: only then are the values themselves looked at.
  if (!Number.isFinite(sum)) requireFinite(values, "values");
  return sum / values.length;
}

/** Values less their mean. */
export function centred(values: Float64Array): Float64Array {
  const middle = mean(values);
  const result = new Float64Array(values.length);
  for (let i = 0; i < result.length; i++) result[i] = values[i]! - middle;
  return result;
}

/** Sample variance of at least two values: squares about the mean, over n - 1. */
export function variance(values: ArrayLike<number>): number {
  requireCount(values, 2, "values");
  const middle = mean(values);
  let even = 0;
  let odd = 0;
  const pairs = values.length & ~1;
  for (let i = 0; i < pairs; i += 2) {
    const first = values[i]! - middle;
    const second = values[i + 1]! - middle;
    even += first * first;
    odd += second * second;
  }
  const last = pairs < values.length ? values[pairs]! - middle : 0;
  return (even + odd + last * last) / (values.length - 1);
}

/** Square root of the sample variance. */
export function standardDeviation(values: ArrayLike<number>): number {
  return Math.sqrt(variance(values));
}

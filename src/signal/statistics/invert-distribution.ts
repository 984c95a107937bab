import { ArgumentError } from "../errors.ts";

/**
 * The point at which an increasing function passes `probability`: bisection that takes Newton's step where it is safe.
 * @param low a point known to lie below the answer
 * @param high a point known to lie above it
 */
export function invertDistribution(
  cumulative: (x: number) => number,
  density: (x: number) => number,
  probability: number,
  low: number,
  high: number,
): number {
  let x = (low + high) / 2;
  for (let i = 0; i < 200; i++) {
    const excess = cumulative(x) - probability;
    if (excess === 0) return x;
    if (excess > 0) high = x;
    else low = x;
    const newton = x - excess / density(x);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= 1e-15 * Math.abs(next)) return next;
    x = next;
  }
  return x;
}

/** Refuses anything but a probability strictly between 0 and 1. */
export function requireProbability(probability: number): void {
  if (!(probability > 0 && probability < 1)) {
    throw new ArgumentError("probability", probability, "a number between 0 and 1, ends excluded");
  }
}

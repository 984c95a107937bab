import { incompleteGamma } from "./gamma.ts";
import { invertDistribution, requireProbability } from "./invert-distribution.ts";

/** Probability that a standard normal variable is at most x. */
export function normalCdf(x: number): number {
  const { lower, upper } = incompleteGamma(0.5, (x * x) / 2);
  return x < 0 ? upper / 2 : 0.5 + lower / 2;
}

/** Density of a standard normal variable. */
export function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
}

/**
 * The value that a standard normal variable stays below with the given probability.
 * @throws ArgumentError unless 0 < probability < 1
 */
export function normalQuantile(probability: number): number {
  requireProbability(probability);
  if (probability === 0.5) return 0;
  if (probability > 0.5) return -normalQuantile(1 - probability);
  return invertDistribution(normalCdf, normalDensity, probability, -40, 0);
}

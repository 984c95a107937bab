import { requirePositive } from "../checks.ts";
import { incompleteGamma, logGamma } from "./gamma.ts";
import { invertDistribution, requireProbability } from "./invert-distribution.ts";

/** Probability that a chi-square variable is at most x. */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  requirePositive(degreesOfFreedom, "degreesOfFreedom");
  return incompleteGamma(degreesOfFreedom / 2, x / 2).lower;
}

/**
 * The value that a chi-square variable stays below with the given probability.
 * @throws ArgumentError unless 0 < probability < 1 and the degrees of freedom are above 0
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  requireProbability(probability);
  requirePositive(degreesOfFreedom, "degreesOfFreedom");
  const half = degreesOfFreedom / 2;
  const logScale = half * Math.LN2 + logGamma(half);
  const density = (x: number) => Math.exp((half - 1) * Math.log(x) - x / 2 - logScale);
  let high = degreesOfFreedom + 10;
  while (chiSquareCdf(high, degreesOfFreedom) < probability) high *= 2;
  return invertDistribution((x) => chiSquareCdf(x, degreesOfFreedom), density, probability, 0, high);
}

import { requirePositive } from "../checks.ts";
import { logGamma } from "./gamma.ts";
import { incompleteBeta } from "./incomplete-beta.ts";
import { invertDistribution, requireProbability } from "./invert-distribution.ts";

/** Probability that a Student t variable is at most t. */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  const tail = studentTTwoSided(t, degreesOfFreedom) / 2;
  return t < 0 ? tail : 1 - tail;
}

/** Probability that a Student t variable lies at least as far from 0 as t, on either side. */
export function studentTTwoSided(t: number, degreesOfFreedom: number): number {
  requirePositive(degreesOfFreedom, "degreesOfFreedom");
  return incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5);
}

/**
 * The value that a Student t variable stays below with the given probability.
 * @throws ArgumentError unless 0 < probability < 1 and the degrees of freedom are above 0
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  requireProbability(probability);
  requirePositive(degreesOfFreedom, "degreesOfFreedom");
  if (probability === 0.5) return 0;
  if (probability > 0.5) return -studentTQuantile(1 - probability, degreesOfFreedom);
  const logScale =
    logGamma((degreesOfFreedom + 1) / 2) - logGamma(degreesOfFreedom / 2) - Math.log(degreesOfFreedom * Math.PI) / 2;
  const density = (t: number) =>
    Math.exp(logScale - ((degreesOfFreedom + 1) / 2) * Math.log1p((t * t) / degreesOfFreedom));
  let low = -10;
  while (studentTCdf(low, degreesOfFreedom) > probability) low *= 2;
  return invertDistribution((t) => studentTCdf(t, degreesOfFreedom), density, probability, low, 0);
}

import { normalCdf } from "../../signal/index.ts";
import { type Covariance3, dot, invert3, times, withUnknowns } from "./covariance3.ts";
import type { Explanation, Shift } from "./imbalance-patterns.ts";

/** An explanation with how well the flight bears it out. */
export interface Weighed {
  readonly explanation: Explanation;
  /** of all explanations, given the flight */
  readonly probability: number;
  /** its unknowns, most likely values */
  readonly sizes: readonly number[];
}

/**
 * Compares explanations of one shift by their marginal likelihood: the probability of the measured shift averaged over
 * all sizes that the unknowns of an explanation may have. One that could have explained anything gains little by
 * explaining this, so freedom is penalised without a knob.
 *
 * Linear and Gaussian: with directions H and unknowns of covariance S, the shift is N(0, C + H S H'). Where unknowns
 * can only be positive, the likelihood is multiplied by the chance that they are, over the chance before (a half each).
 *
 * @param covariance of the shift, measurement and what aircraft in order differ by together
 * @returns most probable first
 * @see MacKay 2003, Information Theory, Inference, and Learning Algorithms, chapter 28
 */
export function weighExplanations(
  shift: Shift,
  covariance: Covariance3,
  explanations: readonly Explanation[],
): Weighed[] {
  const scored = explanations.map((explanation) => {
    const { logarithm, sizes } = evidenceOf(shift, covariance, explanation);
    return { explanation, sizes, logarithm: logarithm + Math.log(explanation.weight) };
  });
  const largest = Math.max(...scored.map(({ logarithm }) => logarithm));
  const total = scored.reduce((sum, { logarithm }) => sum + Math.exp(logarithm - largest), 0);
  return scored
    .map(({ explanation, sizes, logarithm }) => ({
      explanation,
      sizes,
      probability: Math.exp(logarithm - largest) / total,
    }))
    .sort((a, b) => b.probability - a.probability);
}

function evidenceOf(shift: Shift, covariance: Covariance3, { directions, spread, isPositive }: Explanation) {
  const whole = withUnknowns(
    covariance,
    directions.map((direction, k) => ({ direction, spread: spread[k]! })),
  );
  const { inverse, determinant } = invert3(whole);
  const pulled = times(inverse, shift);
  let logarithm = -0.5 * (Math.log(determinant) + dot(shift, pulled));
  const sizes = directions.map((direction, k) => {
    const variance = spread[k]! ** 2;
    const size = variance * dot(direction, pulled);
    if (isPositive[k]) {
      const left = variance - variance * variance * dot(direction, times(inverse, direction));
      logarithm += Math.log(Math.max(1e-300, 2 * normalCdf(size / Math.sqrt(left))));
    }
    return size;
  });
  return { logarithm, sizes };
}

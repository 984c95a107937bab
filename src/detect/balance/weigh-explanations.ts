import { normalCdf } from "../../signal/index.ts";
import type { Explanation, Shift } from "./imbalance-patterns.ts";

/** An explanation with how well the flight bears it out. */
export interface Weighed {
  readonly explanation: Explanation;
  /** of all explanations, given the flight */
  readonly probability: number;
  /** its unknowns, most likely values */
  readonly sizes: readonly number[];
}

/** 3 x 3, row after row. */
export type Covariance3 = Float64Array;

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
  const whole = covariance.slice();
  for (const [k, direction] of directions.entries()) {
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++)
        whole[3 * i + j] = whole[3 * i + j]! + spread[k]! ** 2 * direction[i]! * direction[j]!;
    }
  }
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

const dot = (a: Shift, b: Shift) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const times = (m: Covariance3, v: Shift): Shift => [
  m[0]! * v[0] + m[1]! * v[1] + m[2]! * v[2],
  m[3]! * v[0] + m[4]! * v[1] + m[5]! * v[2],
  m[6]! * v[0] + m[7]! * v[1] + m[8]! * v[2],
];

/** By cofactors; the matrix is symmetric and positive definite. */
function invert3(m: Covariance3): { inverse: Covariance3; determinant: number } {
  const minor = (i: number, j: number) => {
    const [a, b] = [0, 1, 2].filter((row) => row !== i) as [number, number];
    const [c, d] = [0, 1, 2].filter((column) => column !== j) as [number, number];
    return m[3 * a + c]! * m[3 * b + d]! - m[3 * a + d]! * m[3 * b + c]!;
  };
  const cofactor = (i: number, j: number) => ((i + j) % 2 === 0 ? 1 : -1) * minor(i, j);
  const determinant = [0, 1, 2].reduce((sum, j) => sum + m[j]! * cofactor(0, j), 0);
  const inverse = new Float64Array(9).map((_, at) => cofactor(at % 3, Math.floor(at / 3)) / determinant);
  return { inverse, determinant };
}

import type { ComplexArray } from "../complex-array.ts";
import { eigenvalues } from "../linear-algebra/eigenvalues.ts";
import { multiply } from "../linear-algebra/matrix.ts";
import { pseudoInverse } from "../linear-algebra/pseudo-inverse.ts";
import type { HankelSubspace } from "./hankel-subspace.ts";

/**
 * Poles of the sampled signal for a model order: what carries the signal subspace one sample onward.
 * @returns `order` values z; a decaying one lies inside the unit circle
 */
export function pencilPoles({ vectors, width }: HankelSubspace, order: number): ComplexArray {
  const earlier = new Float64Array((width - 1) * order);
  const later = new Float64Array((width - 1) * order);
  for (let k = 0; k < order; k++) {
    for (let i = 0; i < width - 1; i++) {
      earlier[i * order + k] = vectors[k * width + i]!;
      later[i * order + k] = vectors[k * width + i + 1]!;
    }
  }
  const shape = { rows: width - 1, columns: order };
  return eigenvalues(multiply(pseudoInverse({ ...shape, data: earlier }), { ...shape, data: later }));
}

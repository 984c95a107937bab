import { leadingEigenvectors } from "../linear-algebra/leading-eigenvectors.ts";

/** Leading right singular vectors of a Hankel matrix. */
export interface HankelSubspace {
  /** Row k is the vector of the k-th largest singular value, `width` long. */
  readonly vectors: Float64Array;
  /** Falling, all of them. */
  readonly singularValues: Float64Array;
  readonly width: number;
}

/**
 * Subspace of the matrix whose row i is samples[i ... i + width - 1], from its Gram matrix. Each step down a diagonal of
 * that takes one product off and puts one on, so that forming it costs width x n and not width² x n.
 * @param count of vectors wanted
 */
export function hankelSubspace(samples: Float64Array, width: number, count: number): HankelSubspace {
  const rows = samples.length - width + 1;
  const gram = new Float64Array(width * width);
  for (let lag = 0; lag < width; lag++) {
    let sum = 0;
    for (let i = 0; i < rows; i++) sum += samples[i]! * samples[i + lag]!;
    for (let j = 0; j + lag < width; j++) {
      if (j > 0) sum += samples[rows + j - 1]! * samples[rows + j - 1 + lag]! - samples[j - 1]! * samples[j - 1 + lag]!;
      gram[j * width + j + lag] = sum;
      gram[(j + lag) * width + j] = sum;
    }
  }
  const { values, vectors } = leadingEigenvectors({ rows: width, columns: width, data: gram }, Math.min(count, width));
  return { vectors: vectors.data, singularValues: values.map((value) => Math.sqrt(Math.max(0, value))), width };
}

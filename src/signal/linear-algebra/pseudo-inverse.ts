import type { Matrix } from "./matrix.ts";
import { singularValueDecomposition } from "./singular-values.ts";

/**
 * The Moore-Penrose inverse, columns x rows.
 * @param options tolerance: singular values up to this share of the largest count as 0; default max(rows, columns) x 2^-52
 * @see Penrose 1955, Math. Proc. Camb. Philos. Soc. 51:406-413
 */
export function pseudoInverse(a: Matrix, options: { tolerance?: number } = {}): Matrix {
  const { u, values, v } = singularValueDecomposition(a);
  const limit = (options.tolerance ?? Math.max(a.rows, a.columns) * Number.EPSILON) * values[0]!;
  const data = new Float64Array(a.columns * a.rows);
  for (let k = 0; k < values.length; k++) {
    if (!(values[k]! > limit)) continue;
    for (let i = 0; i < a.columns; i++) {
      const factor = v.data[i * v.columns + k]! / values[k]!;
      for (let j = 0; j < a.rows; j++)
        data[i * a.rows + j] = data[i * a.rows + j]! + factor * u.data[j * u.columns + k]!;
    }
  }
  return { rows: a.columns, columns: a.rows, data };
}

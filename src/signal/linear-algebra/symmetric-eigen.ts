import { type Matrix, requireSquare } from "./matrix.ts";
import { implicitQL, reflectBack, tridiagonalise } from "./tridiagonal.ts";

export interface SymmetricEigen {
  /** Rising. */
  readonly values: Float64Array;
  /** Row k is the unit eigenvector of value k. */
  readonly vectors: Matrix;
}

/**
 * Eigenvalues and eigenvectors of a symmetric matrix. Only the lower triangle is read.
 * @throws ArgumentError if the matrix is not square
 * @see Golub & Van Loan, Matrix Computations, section 8.3
 */
export function symmetricEigen(a: Matrix): SymmetricEigen {
  requireSquare(a, "a");
  const n = a.rows;
  const form = tridiagonalise(a);
  const vectors = new Float64Array(n * n);
  for (let i = 0; i < n; i++) vectors[i * n + i] = 1;
  const values = form.diagonal.slice();
  implicitQL(values, form.offDiagonal.slice(), vectors);
  reflectBack(form, vectors);
  const order = Array.from(values.keys()).sort((i, j) => values[i]! - values[j]!);
  const sorted = new Float64Array(n * n);
  for (const [k, source] of order.entries()) sorted.set(vectors.subarray(source * n, (source + 1) * n), k * n);
  return {
    values: Float64Array.from(order, (source) => values[source]!),
    vectors: { rows: n, columns: n, data: sorted },
  };
}

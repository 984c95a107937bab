import { dot } from "./dot.ts";
import { type Matrix, transpose } from "./matrix.ts";

/** A = U diag(values) Vᵀ, with as many values as the smaller side of A. */
export interface SingularValueDecomposition {
  /** rows x k, with orthonormal columns (of zeros, where the value is 0). */
  readonly u: Matrix;
  /** Falling. */
  readonly values: Float64Array;
  /** columns x k, with orthonormal columns. */
  readonly v: Matrix;
}

/**
 * Singular value decomposition by one-sided Jacobi rotations: small values keep their relative accuracy. For small
 * matrices; the work is some ten times rows x columns².
 * @see Golub & Van Loan, Matrix Computations, section 8.6 (4th edition); Hestenes 1958, J. SIAM 6(1):51-90
 */
export function singularValueDecomposition(a: Matrix): SingularValueDecomposition {
  if (a.rows < a.columns) {
    const { u, values, v } = singularValueDecomposition(transpose(a));
    return { u: v, values, v: u };
  }
  const { rows, columns } = a;
  // One row of `work` is one column of A, and one row of `right` one column of V: rotations run along memory.
  const work = transpose(a).data;
  const right = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) right[i * columns + i] = 1;
  for (let sweep = 0; sweep < 60; sweep++) {
    let rotations = 0;
    for (let p = 0; p < columns - 1; p++) {
      for (let q = p + 1; q < columns; q++) {
        const x = work.subarray(p * rows, (p + 1) * rows);
        const y = work.subarray(q * rows, (q + 1) * rows);
        const [xx, yy, xy] = [dot(x, x), dot(y, y), dot(x, y)];
        if (Math.abs(xy) <= 1e-16 * Math.sqrt(xx * yy) || xy === 0) continue;
        rotations++;
        const zeta = (yy - xx) / (2 * xy);
        const tangent = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.hypot(1, zeta));
        const cosine = 1 / Math.hypot(1, tangent);
        rotate(x, y, cosine, cosine * tangent);
        rotate(
          right.subarray(p * columns, (p + 1) * columns),
          right.subarray(q * columns, (q + 1) * columns),
          cosine,
          cosine * tangent,
        );
      }
    }
    if (rotations === 0) break;
  }
  return sortedFactors(work, right, rows, columns);
}

function sortedFactors(work: Float64Array, right: Float64Array, rows: number, columns: number) {
  const lengths = Float64Array.from({ length: columns }, (_, j) => {
    const column = work.subarray(j * rows, (j + 1) * rows);
    return Math.sqrt(dot(column, column));
  });
  const order = Array.from(lengths.keys()).sort((i, j) => lengths[j]! - lengths[i]!);
  const u = new Float64Array(rows * columns);
  const v = new Float64Array(columns * columns);
  for (const [k, source] of order.entries()) {
    const length = lengths[source]!;
    for (let i = 0; i < rows; i++) u[i * columns + k] = length > 0 ? work[source * rows + i]! / length : 0;
    for (let i = 0; i < columns; i++) v[i * columns + k] = right[source * columns + i]!;
  }
  return {
    u: { rows, columns, data: u },
    values: Float64Array.from(order, (source) => lengths[source]!),
    v: { rows: columns, columns, data: v },
  };
}

function rotate(x: Float64Array, y: Float64Array, cosine: number, sine: number): void {
  for (let i = 0; i < x.length; i++) {
    const [a, b] = [x[i]!, y[i]!];
    x[i] = cosine * a - sine * b;
    y[i] = sine * a + cosine * b;
  }
}

/** Largest over smallest singular value: infinite for a matrix whose columns (or rows) are not independent. */
export function conditionNumber(a: Matrix): number {
  const { values } = singularValueDecomposition(a);
  const smallest = values[values.length - 1]!;
  return smallest > 0 ? values[0]! / smallest : Number.POSITIVE_INFINITY;
}

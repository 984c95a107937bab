import { requireWhole } from "../checks.ts";
import { linearCongruential } from "../random/linear-congruential.ts";
import { type Matrix, requireSquare } from "./matrix.ts";
import { implicitQL, reflectBack, type Tridiagonal, tridiagonalise } from "./tridiagonal.ts";

export interface LeadingEigenvectors {
  /** All eigenvalues, falling. */
  readonly values: Float64Array;
  /** Row k is the unit eigenvector of value k, for the first `count` of them. */
  readonly vectors: Matrix;
}

/**
 * All eigenvalues of a symmetric matrix but only the leading eigenvectors, by inverse iteration on its tridiagonal
 * form: a fraction of the work of `symmetricEigen`. Only the lower triangle is read.
 * @param count of eigenvectors
 * @see Golub & Van Loan, Matrix Computations, section 8.4.2; Peters & Wilkinson 1971, Handbook for Automatic
 *   Computation 2:418-439
 */
export function leadingEigenvectors(a: Matrix, count: number): LeadingEigenvectors {
  requireSquare(a, "a");
  requireWhole(count, 1, "count", a.rows);
  const n = a.rows;
  const form = tridiagonalise(a);
  const values = form.diagonal.slice();
  implicitQL(values, form.offDiagonal.slice());
  values.sort().reverse();
  const vectors = new Float64Array(count * n);
  const size = Math.max(Math.abs(values[0]!), Math.abs(values[n - 1]!), Number.MIN_VALUE);
  let shift = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    const vector = vectors.subarray(k * n, (k + 1) * n);
    vector.set(linearCongruential(k + 1, n).map((u) => u - 0.5));
    // Equal eigenvalues get shifts a rounding error apart, so that their solutions are not all alike.
    shift = Math.min(values[k]!, shift - 4 * Number.EPSILON * size);
    for (let iteration = 0; iteration < 4; iteration++) {
      solveShifted(form, shift, vector, size);
      orthonormalise(vectors, k, n);
    }
  }
  reflectBack(form, vectors);
  return { values, vectors: { rows: count, columns: n, data: vectors } };
}

/** x <- (T - shift)⁻¹ x, by elimination with row exchanges; a vanishing pivot is taken for a rounding error. */
function solveShifted({ diagonal, offDiagonal }: Tridiagonal, shift: number, x: Float64Array, size: number): void {
  const n = x.length;
  const tiny = Number.EPSILON * size;
  // Row i of the triangle: pivot[i] x[i] + upper[i] x[i+1] + second[i] x[i+2] = x[i].
  const pivot = new Float64Array(n);
  const upper = new Float64Array(n);
  const second = new Float64Array(n);
  let [p, u] = [diagonal[0]! - shift, offDiagonal[0]!];
  for (let i = 0; i + 1 < n; i++) {
    const below = offDiagonal[i]!;
    const [nextPivot, nextUpper] = [diagonal[i + 1]! - shift, offDiagonal[i + 1]!];
    if (Math.abs(p) >= Math.abs(below)) {
      pivot[i] = Math.abs(p) < tiny ? tiny : p;
      upper[i] = u;
      const factor = below / pivot[i]!;
      x[i + 1] = x[i + 1]! - factor * x[i]!;
      p = nextPivot - factor * u;
      u = nextUpper;
    } else {
      pivot[i] = below;
      upper[i] = nextPivot;
      second[i] = nextUpper;
      const factor = p / below;
      const exchanged = x[i]!;
      x[i] = x[i + 1]!;
      x[i + 1] = exchanged - factor * x[i]!;
      p = u - factor * nextPivot;
      u = -factor * nextUpper;
    }
  }
  pivot[n - 1] = Math.abs(p) < tiny ? tiny : p;
  for (let i = n - 1; i >= 0; i--) {
    const known = (i + 1 < n ? upper[i]! * x[i + 1]! : 0) + (i + 2 < n ? second[i]! * x[i + 2]! : 0);
    x[i] = (x[i]! - known) / pivot[i]!;
  }
}

/** Takes off row k what it shares with the rows before, and scales it to length 1. */
function orthonormalise(vectors: Float64Array, k: number, n: number): void {
  const vector = vectors.subarray(k * n, (k + 1) * n);
  // Scaled first: near an eigenvalue the solution is huge.
  const largest = vector.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  for (let i = 0; i < n; i++) vector[i] = vector[i]! / largest;
  for (let pass = 0; pass < 2; pass++) {
    for (let j = 0; j < k; j++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += vectors[j * n + i]! * vector[i]!;
      for (let i = 0; i < n; i++) vector[i] = vector[i]! - sum * vectors[j * n + i]!;
    }
    const length = Math.sqrt(vector.reduce((sum, value) => sum + value * value, 0));
    for (let i = 0; i < n; i++) vector[i] = vector[i]! / length;
  }
}

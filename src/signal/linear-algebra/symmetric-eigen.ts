import { type Matrix, requireSquare } from "./matrix.ts";

export interface SymmetricEigen {
  /** Rising. */
  readonly values: Float64Array;
  /** Row k is the unit eigenvector of value k. */
  readonly vectors: Matrix;
}

/**
 * Eigenvalues and eigenvectors of a symmetric matrix: Householder tridiagonalisation, then the implicit QL method.
 * Only the lower triangle is read.
 * @see Golub & Van Loan, Matrix Computations, section 8.3; Bowdler et al. 1968, Numer. Math. 11:293-306
 */
export function symmetricEigen(a: Matrix): SymmetricEigen {
  requireSquare(a, "a");
  const n = a.rows;
  const { diagonal, offDiagonal, vectors } = tridiagonalise(a);
  implicitQL(diagonal, offDiagonal, vectors, n);
  const order = Array.from(diagonal.keys()).sort((i, j) => diagonal[i]! - diagonal[j]!);
  const sorted = new Float64Array(n * n);
  for (const [k, source] of order.entries()) sorted.set(vectors.subarray(source * n, (source + 1) * n), k * n);
  return {
    values: Float64Array.from(order, (source) => diagonal[source]!),
    vectors: { rows: n, columns: n, data: sorted },
  };
}

/** Q A Qᵀ = T: the diagonal and off-diagonal of T, and Q, whose rows are the images of the axes. */
function tridiagonalise(a: Matrix) {
  const n = a.rows;
  const m = a.data.slice();
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) m[i * n + j] = m[j * n + i]!;
  const vectors = new Float64Array(n * n);
  for (let i = 0; i < n; i++) vectors[i * n + i] = 1;
  const v = new Float64Array(n);
  const p = new Float64Array(n);
  const reflectors: { start: number; beta: number; v: Float64Array }[] = [];
  for (let k = 0; k < n - 2; k++) {
    let square = 0;
    for (let i = k + 1; i < n; i++) square += m[k * n + i]! ** 2;
    let tail = 0;
    for (let i = k + 2; i < n; i++) tail = Math.max(tail, Math.abs(m[k * n + i]!));
    if (tail === 0) continue;
    const norm = Math.sqrt(square);
    const alpha = m[k * n + k + 1]! > 0 ? -norm : norm;
    for (let i = k + 1; i < n; i++) v[i] = m[k * n + i]!;
    v[k + 1] = v[k + 1]! - alpha;
    const beta = 1 / (square - alpha * m[k * n + k + 1]!);
    reflectSymmetric(m, v, p, beta, k + 1, n);
    m[k * n + k + 1] = alpha;
    m[(k + 1) * n + k] = alpha;
    for (let i = k + 2; i < n; i++) m[k * n + i] = 0;
    reflectors.push({ start: k + 1, beta, v: v.slice() });
  }
  // Last reflector first: Q then grows from the corner, and rows above `start` are still those of the identity.
  for (const { start, beta, v: reflector } of reflectors.reverse()) reflectRows(vectors, reflector, p, beta, start, n);
  const diagonal = Float64Array.from({ length: n }, (_, i) => m[i * n + i]!);
  const offDiagonal = Float64Array.from({ length: n }, (_, i) => (i + 1 < n ? m[i * n + i + 1]! : 0));
  return { diagonal, offDiagonal, vectors: transposeSquare(vectors, n) };
}

/** A <- H A H with H = I - beta v vᵀ, on the rows and columns from `start` on: A - v qᵀ - q vᵀ. */
function reflectSymmetric(
  m: Float64Array,
  v: Float64Array,
  p: Float64Array,
  beta: number,
  start: number,
  n: number,
): void {
  let vp = 0;
  for (let i = start; i < n; i++) {
    let sum = 0;
    for (let j = start; j < n; j++) sum += m[i * n + j]! * v[j]!;
    p[i] = beta * sum;
    vp += p[i]! * v[i]!;
  }
  const half = (beta * vp) / 2;
  for (let i = start; i < n; i++) p[i] = p[i]! - half * v[i]!;
  for (let i = start; i < n; i++) {
    const [vi, pi] = [v[i]!, p[i]!];
    for (let j = start; j < n; j++) m[i * n + j] = m[i * n + j]! - vi * p[j]! - pi * v[j]!;
  }
}

/** Q <- H Q. */
function reflectRows(q: Float64Array, v: Float64Array, p: Float64Array, beta: number, start: number, n: number): void {
  p.fill(0);
  for (let i = start; i < n; i++) {
    const factor = beta * v[i]!;
    for (let j = start; j < n; j++) p[j] = p[j]! + factor * q[i * n + j]!;
  }
  for (let i = start; i < n; i++) {
    const vi = v[i]!;
    for (let j = start; j < n; j++) q[i * n + j] = q[i * n + j]! - vi * p[j]!;
  }
}

function transposeSquare(m: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) out[j * n + i] = m[i * n + j]!;
  return out;
}

/** Turns the tridiagonal matrix into its eigenvalues, in place, and the rows of `vectors` with it. */
function implicitQL(d: Float64Array, e: Float64Array, vectors: Float64Array, n: number): void {
  for (let l = 0; l < n; l++) {
    for (let iteration = 0; iteration < 60; iteration++) {
      let m = l;
      while (m < n - 1 && Math.abs(e[m]!) > Number.EPSILON * (Math.abs(d[m]!) + Math.abs(d[m + 1]!))) m++;
      if (m === l) break;
      let g = (d[l + 1]! - d[l]!) / (2 * e[l]!);
      let r = Math.hypot(g, 1);
      g = d[m]! - d[l]! + e[l]! / (g + (g < 0 ? -r : r));
      let [s, c, shift] = [1, 1, 0];
      let i = m - 1;
      for (; i >= l; i--) {
        const f = s * e[i]!;
        const b = c * e[i]!;
        r = Math.hypot(f, g);
        e[i + 1] = r;
        if (r === 0) {
          d[i + 1] = d[i + 1]! - shift;
          e[m] = 0;
          break;
        }
        s = f / r;
        c = g / r;
        g = d[i + 1]! - shift;
        const t = (d[i]! - g) * s + 2 * c * b;
        shift = s * t;
        d[i + 1] = g + shift;
        g = c * t - b;
        rotateRows(vectors, i * n, (i + 1) * n, c, s, n);
      }
      if (r === 0 && i >= l) continue;
      d[l] = d[l]! - shift;
      e[l] = g;
      e[m] = 0;
    }
  }
}

function rotateRows(v: Float64Array, first: number, second: number, c: number, s: number, n: number): void {
  for (let k = 0; k < n; k++) {
    const f = v[second + k]!;
    const g = v[first + k]!;
    v[second + k] = s * g + c * f;
    v[first + k] = c * g - s * f;
  }
}

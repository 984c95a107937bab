import type { Matrix } from "./matrix.ts";

/** A symmetric matrix A = H T H of reflections H and a tridiagonal T. */
export interface Tridiagonal {
  readonly size: number;
  readonly diagonal: Float64Array;
  /** Element i stands beside diagonal elements i and i + 1; the last is 0. */
  readonly offDiagonal: Float64Array;
  /** Row k reflects I - beta[k] v vᵀ, v from element k + 1 on. */
  readonly reflectors: Float64Array;
  readonly beta: Float64Array;
}

/**
 * Householder's reduction of a symmetric matrix to tridiagonal form. Only the lower triangle is read.
 * @see Golub & Van Loan, Matrix Computations, section 8.3.1
 */
export function tridiagonalise(a: Matrix): Tridiagonal {
  const n = a.rows;
  const m = a.data.slice();
  const reflectors = new Float64Array(n * n);
  const beta = new Float64Array(n);
  const offDiagonal = new Float64Array(n);
  const p = new Float64Array(n);
  for (let k = 0; k + 1 < n; k++) {
    const v = reflectors.subarray(k * n, (k + 1) * n);
    let tail = 0;
    for (let i = k + 1; i < n; i++) v[i] = m[i * n + k]!;
    for (let i = k + 2; i < n; i++) tail = Math.max(tail, Math.abs(v[i]!));
    const head = v[k + 1]!;
    offDiagonal[k] = head;
    if (tail === 0) continue;
    let square = 0;
    for (let i = k + 1; i < n; i++) square += v[i]! * v[i]!;
    const alpha = head > 0 ? -Math.sqrt(square) : Math.sqrt(square);
    offDiagonal[k] = alpha;
    v[k + 1] = head - alpha;
    beta[k] = 1 / (square - alpha * head);
    reflectTrailing(m, v, p, beta[k]!, k + 1, n);
  }
  const diagonal = Float64Array.from({ length: n }, (_, i) => m[i * n + i]!);
  return { size: n, diagonal, offDiagonal, reflectors, beta };
}

/** A <- H A H on the rows and columns from `start`, lower triangle only: A - v qᵀ - q vᵀ. */
function reflectTrailing(
  m: Float64Array,
  v: Float64Array,
  p: Float64Array,
  beta: number,
  start: number,
  n: number,
): void {
  p.fill(0);
  for (let i = start; i < n; i++) {
    const row = i * n;
    const vi = v[i]!;
    let sum = m[row + i]! * vi;
    for (let j = start; j < i; j++) {
      const value = m[row + j]!;
      sum += value * v[j]!;
      p[j] = p[j]! + value * vi;
    }
    p[i] = p[i]! + sum;
  }
  let vp = 0;
  for (let i = start; i < n; i++) vp += p[i]! * v[i]!;
  for (let i = start; i < n; i++) p[i] = beta * (p[i]! - (beta * vp * v[i]!) / 2);
  for (let i = start; i < n; i++) {
    const row = i * n;
    const [vi, pi] = [v[i]!, p[i]!];
    for (let j = start; j <= i; j++) m[row + j] = m[row + j]! - vi * p[j]! - pi * v[j]!;
  }
}

/** Turns eigenvectors of T into those of A, in place: one vector a row of `vectors`. */
export function reflectBack({ size: n, reflectors, beta }: Tridiagonal, vectors: Float64Array): void {
  for (let row = 0; row < vectors.length; row += n) {
    for (let k = n - 2; k >= 0; k--) {
      if (beta[k] === 0) continue;
      const at = k * n;
      let sum = 0;
      for (let i = k + 1; i < n; i++) sum += reflectors[at + i]! * vectors[row + i]!;
      sum *= beta[k]!;
      for (let i = k + 1; i < n; i++) vectors[row + i] = vectors[row + i]! - sum * reflectors[at + i]!;
    }
  }
}

/**
 * Turns T into its eigenvalues (in place of the diagonal, unsorted) by the implicit QL method; the off-diagonal is lost.
 * @param vectors if given, rows that are turned along: from the identity they become the eigenvectors of T
 * @see Bowdler, Martin, Reinsch & Wilkinson 1968, Numer. Math. 11:293-306
 */
export function implicitQL(d: Float64Array, e: Float64Array, vectors?: Float64Array): void {
  const n = d.length;
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
        r = Math.sqrt(f * f + g * g);
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
        if (vectors) rotateRows(vectors, i * n, (i + 1) * n, c, s, n);
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

import type { ComplexArray } from "../complex-array.ts";
import { type Matrix, requireSquare } from "./matrix.ts";

/**
 * Eigenvalues of a real square matrix, complex ones in conjugate pairs next to each other: reduction to Hessenberg
 * form, then Francis's double-shift QR steps. For small matrices, up to some hundred rows.
 * @returns unsorted
 * @see Golub & Van Loan, Matrix Computations, sections 7.4 and 7.5; Martin, Peters & Wilkinson 1970, Numer. Math. 14:219-231
 */
export function eigenvalues(a: Matrix): ComplexArray {
  requireSquare(a, "a");
  const n = a.rows;
  const h = a.data.slice();
  reduceToHessenberg(h, n);
  const out = { re: new Float64Array(n), im: new Float64Array(n) };
  let norm = 0;
  for (const value of h) norm += Math.abs(value);
  let last = n - 1;
  let iterations = 0;
  while (last >= 0) {
    const first = startOfBlock(h, n, last, norm);
    if (first === last) {
      out.re[last] = h[last * n + last]!;
      last--;
      iterations = 0;
    } else if (first === last - 1) {
      pairEigenvalues(h, n, last, out);
      last -= 2;
      iterations = 0;
    } else {
      // A step that does not settle in a while gets one exceptional shift, which breaks any cycle.
      francisStep(h, n, first, last, ++iterations % 10 === 0);
      if (iterations > 300) throw new Error("the QR steps did not converge");
    }
  }
  return out;
}

/** The first row of the block that ends at `last`: above it stands a negligible element below the diagonal. */
function startOfBlock(h: Float64Array, n: number, last: number, norm: number): number {
  let first = last;
  for (; first > 0; first--) {
    const neighbours = Math.abs(h[(first - 1) * n + first - 1]!) + Math.abs(h[first * n + first]!);
    if (Math.abs(h[first * n + first - 1]!) <= Number.EPSILON * (neighbours || norm)) {
      h[first * n + first - 1] = 0;
      break;
    }
  }
  return first;
}

/** Eigenvalues of the two-by-two block that ends at `last`. */
function pairEigenvalues(h: Float64Array, n: number, last: number, out: ComplexArray): void {
  const [a, b] = [h[(last - 1) * n + last - 1]!, h[(last - 1) * n + last]!];
  const [c, d] = [h[last * n + last - 1]!, h[last * n + last]!];
  const half = (a - d) / 2;
  const discriminant = half * half + b * c;
  const root = Math.sqrt(Math.abs(discriminant));
  if (discriminant >= 0) {
    // The larger root by addition of like signs, the other from the product: neither loses digits.
    const far = half + (half < 0 ? -root : root);
    out.re[last - 1] = d + far;
    out.re[last] = far === 0 ? d : d - (b * c) / far;
  } else {
    for (const [place, sign] of [[last - 1, 1] as const, [last, -1] as const]) {
      out.re[place] = d + half;
      out.im[place] = sign * root;
    }
  }
}

/** Similarity by Householder reflections, until nothing stands below the first subdiagonal. */
function reduceToHessenberg(h: Float64Array, n: number): void {
  for (let k = 0; k < n - 2; k++) {
    const column = Array.from({ length: n - k - 1 }, (_, i) => h[(k + 1 + i) * n + k]!);
    const reflector = householder(column);
    if (!reflector) continue;
    reflect(h, n, k + 1, reflector, k, n);
    for (let i = k + 2; i < n; i++) h[i * n + k] = 0;
  }
}

interface Reflector {
  readonly v: readonly number[];
  readonly beta: number;
}

/** I - beta v vᵀ turns the vector onto the first axis; undefined if it lies there already. */
function householder(vector: readonly number[]): Reflector | undefined {
  // Exactly so: a part however small beside the first is what the QR steps have yet to drive out.
  if (vector.slice(1).every((value) => value === 0)) return undefined;
  const norm = Math.hypot(...vector);
  const alpha = vector[0]! > 0 ? -norm : norm;
  const head = vector[0]! - alpha;
  return { v: [1, ...vector.slice(1).map((value) => value / head)], beta: -head / alpha };
}

/** H A H on the rows and columns from `at`; rows from column `fromColumn` on, columns down to row `toRow`. */
function reflect(
  h: Float64Array,
  n: number,
  at: number,
  { v, beta }: Reflector,
  fromColumn: number,
  toRow: number,
): void {
  for (let j = fromColumn; j < n; j++) {
    let sum = 0;
    for (let i = 0; i < v.length; i++) sum += v[i]! * h[(at + i) * n + j]!;
    for (let i = 0; i < v.length; i++) h[(at + i) * n + j] = h[(at + i) * n + j]! - beta * sum * v[i]!;
  }
  for (let i = 0; i < toRow; i++) {
    let sum = 0;
    for (let j = 0; j < v.length; j++) sum += v[j]! * h[i * n + at + j]!;
    for (let j = 0; j < v.length; j++) h[i * n + at + j] = h[i * n + at + j]! - beta * sum * v[j]!;
  }
}

/** One implicit double-shift step on the block from `first` to `last`: make a bulge, chase it out below. */
function francisStep(h: Float64Array, n: number, first: number, last: number, isExceptional: boolean): void {
  const [a, b] = [h[(last - 1) * n + last - 1]!, h[(last - 1) * n + last]!];
  const [c, d] = [h[last * n + last - 1]!, h[last * n + last]!];
  const odd = Math.abs(c) + Math.abs(h[(last - 1) * n + last - 2]!);
  const trace = isExceptional ? 1.5 * odd : a + d;
  const determinant = isExceptional ? odd * odd : a * d - b * c;
  const at = (i: number, j: number) => h[(first + i) * n + first + j]!;
  let bulge = [
    at(0, 0) * at(0, 0) + at(0, 1) * at(1, 0) - trace * at(0, 0) + determinant,
    at(1, 0) * (at(0, 0) + at(1, 1) - trace),
    at(1, 0) * at(2, 1),
  ];
  for (let k = first; k < last; k++) {
    const reflector = householder(bulge);
    if (reflector) reflect(h, n, k, reflector, Math.max(first, k - 1), Math.min(last, k + 3) + 1);
    if (k > first) for (let i = k + 1; i <= Math.min(last, k + 2); i++) h[i * n + k - 1] = 0;
    bulge = Array.from({ length: Math.min(3, last - k) }, (_, i) => h[(k + 1 + i) * n + k]!);
  }
}

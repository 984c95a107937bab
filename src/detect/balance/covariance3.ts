import type { Shift } from "./imbalance-patterns.ts";

/** 3 x 3, row after row; symmetric and positive definite. */
export type Covariance3 = Float64Array;

export const dot = (a: Shift, b: Shift) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const times = (m: Covariance3, v: Shift): Shift => [
  m[0]! * v[0] + m[1]! * v[1] + m[2]! * v[2],
  m[3]! * v[0] + m[4]! * v[1] + m[5]! * v[2],
  m[6]! * v[0] + m[7]! * v[1] + m[8]! * v[2],
];

/** The covariance with what an unknown of this standard deviation adds along each direction. */
export function withUnknowns(
  covariance: Covariance3,
  unknowns: readonly { readonly direction: Shift; readonly spread: number }[],
): Covariance3 {
  const whole = covariance.slice();
  for (const { direction, spread } of unknowns) {
    for (let at = 0; at < 9; at++) {
      whole[at] = whole[at]! + spread ** 2 * direction[Math.floor(at / 3)]! * direction[at % 3]!;
    }
  }
  return whole;
}

/** By cofactors. */
export function invert3(m: Covariance3): { inverse: Covariance3; determinant: number } {
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

import { type ComplexArray, dot, type Matrix } from "../../signal/index.ts";
import { lateness } from "./lateness.ts";
import { type MomentModel, momentCovariance } from "./moment-covariance.ts";
import type { MomentSpectra } from "./moment-spectra.ts";
import type { SetPointSpectra } from "./set-point-spectra.ts";

export interface MomentFit extends MomentModel {
  /** of the logarithm of the effectiveness, of lag, delay and damping: 4 x 4 */
  readonly covariance: Matrix;
}

/** s: lags and delays that are tried, from none to so many steps; large propellers take 0.3 s (common practice) */
const STEP = 0.0025;
const LAG_STEPS = 160;
const DELAY_STEPS = 60;

/**
 * Effectiveness, damping, lag and delay that account best for what the acceleration owes to the set point; effectiveness
 * and damping are least squares at each lag and delay of a grid.
 * @returns null where no effectiveness above zero does, or the best lag or delay is the longest that was tried
 */
export function fitMoment({ spectra, omegas, segments }: MomentSpectra): MomentFit | null {
  const first = fitOf(
    spectra,
    omegas,
    omegas.map((_, k) => 1 / (spectra.rr[k]! * spectra.aa[k]!)),
  );
  // Weights by what else turned the axis, which the first fit tells well enough.
  return first && fitOf(spectra, omegas, weightsOf(spectra, omegas, first, segments));
}

/** One over the variance of a cross spectrum with the set point: its power times that of the acceleration left over. */
function weightsOf(
  { rr, mm, aa, ma }: SetPointSpectra,
  omegas: readonly number[],
  { effectiveness, lag, delay }: MomentModel,
  segments: number,
): number[] {
  return omegas.map((omega, k) => {
    const [re, im] = lateness(omega, lag, delay);
    const along = re * ma.re[k]! + im * ma.im[k]!;
    const left = aa[k]! - 2 * effectiveness * along + effectiveness ** 2 * (re * re + im * im) * mm[k]!;
    return segments / (rr[k]! * Math.max(left, 1e-6 * aa[k]!));
  });
}

/** The same with given weights, one for each frequency. */
function fitOf(
  { rm, ra, ry }: SetPointSpectra,
  omegas: readonly number[],
  weights: readonly number[],
): MomentFit | null {
  let best = { effectiveness: 0, damping: 0, lag: 0, delay: 0, cost: Number.POSITIVE_INFINITY };
  // The acceleration is fitted by x, the late moment, and z, the rate's damping: only x changes over the grid, and its
  // products are those of the moment (m) turned by how late it is.
  const damped = { re: ry.re.map((re) => -re), im: ry.im.map((im) => -im) };
  const mz = weighed(rm, damped, weights);
  const ma = weighed(rm, ra, weights);
  const zz = sum(weighed(damped, damped, weights).re);
  const za = sum(weighed(damped, ra, weights).re);
  const aa = sum(weighed(ra, ra, weights).re);
  const mm = weighed(rm, rm, weights).re;
  const delayed = Array.from({ length: DELAY_STEPS + 1 }, (_, j) => {
    const late = latenesses(omegas, 0, j * STEP);
    return { z: weighed(late, mz), a: weighed(late, ma) };
  });
  for (let i = 0; i <= LAG_STEPS; i++) {
    const lagged = latenesses(omegas, i * STEP, 0);
    const xx = sum(mm.map((power, k) => power * (lagged.re[k]! ** 2 + lagged.im[k]! ** 2)));
    for (let j = 0; j <= DELAY_STEPS; j++) {
      const { z, a } = delayed[j]!;
      const xz = dot(lagged.re, z.re) + dot(lagged.im, z.im);
      const xa = dot(lagged.re, a.re) + dot(lagged.im, a.im);
      const determinant = xx * zz - xz * xz;
      if (!(determinant > 0)) continue;
      const effectiveness = (xa * zz - za * xz) / determinant;
      const damping = (za * xx - xa * xz) / determinant;
      const cost = aa - effectiveness * xa - damping * za;
      if (effectiveness > 0 && cost < best.cost) {
        best = { effectiveness, damping, lag: i * STEP, delay: j * STEP, cost };
      }
    }
  }
  // On the far edge of the grid the true one is likely beyond it.
  if (best.effectiveness === 0 || best.lag === LAG_STEPS * STEP || best.delay === DELAY_STEPS * STEP) return null;
  const covariance = momentCovariance({ rm, ra, ry }, omegas, weights, best);
  return covariance && { ...best, covariance };
}

/** The conjugate of one spectrum times another, times a weight (1 where none is given), frequency by frequency. */
function weighed(u: ComplexArray, v: ComplexArray, weights?: readonly number[]): ComplexArray {
  const weight = (k: number) => weights?.[k] ?? 1;
  return {
    re: u.re.map((re, k) => weight(k) * (re * v.re[k]! + u.im[k]! * v.im[k]!)),
    im: u.re.map((re, k) => weight(k) * (re * v.im[k]! - u.im[k]! * v.re[k]!)),
  };
}

const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);

/** `lateness` at every frequency. */
function latenesses(omegas: readonly number[], lag: number, delay: number): ComplexArray {
  const all = omegas.map((omega) => lateness(omega, lag, delay));
  return { re: Float64Array.from(all, ([re]) => re), im: Float64Array.from(all, ([, im]) => im) };
}

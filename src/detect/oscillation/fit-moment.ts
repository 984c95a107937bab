import type { Matrix } from "../../signal/index.ts";
import { lateness } from "./lateness.ts";
import { type MomentModel, momentCovariance } from "./moment-covariance.ts";
import type { MomentSpectra } from "./moment-spectra.ts";
import type { SetPointSpectra } from "./set-point-spectra.ts";

export interface MomentFit extends MomentModel {
  /** of the logarithm of the effectiveness, of lag, delay and damping: 4 x 4 */
  readonly covariance: Matrix;
}

/** s: lags and delays that are tried */
const LAGS = { step: 0.0025, most: 0.15 };
const DELAYS = { step: 0.0025, most: 0.08 };

/**
 * Effectiveness, damping, lag and delay that account best for what the acceleration owes to the set point; effectiveness
 * and damping are least squares at each lag and delay of a grid.
 * @returns null where no effectiveness above zero does
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

/** Effectiveness, damping, lag and delay that account best for the acceleration; null where none above zero do. */
function fitOf(
  { rm, ra, ry }: SetPointSpectra,
  omegas: readonly number[],
  weights: readonly number[],
): MomentFit | null {
  let best = { effectiveness: 0, damping: 0, lag: 0, delay: 0, cost: Number.POSITIVE_INFINITY };
  for (let i = 0; i * LAGS.step <= LAGS.most; i++) {
    for (let j = 0; j * DELAYS.step <= DELAYS.most; j++) {
      const [lag, delay] = [i * LAGS.step, j * DELAYS.step];
      let [xx, xz, zz, xa, za, aa] = [0, 0, 0, 0, 0, 0];
      for (const [k, omega] of omegas.entries()) {
        const [re, im] = lateness(omega, lag, delay);
        const [xr, xi] = [re * rm.re[k]! - im * rm.im[k]!, im * rm.re[k]! + re * rm.im[k]!];
        const [zr, zi] = [-ry.re[k]!, -ry.im[k]!];
        const [ar, ai] = [ra.re[k]!, ra.im[k]!];
        const weight = weights[k]!;
        xx += weight * (xr * xr + xi * xi);
        xz += weight * (xr * zr + xi * zi);
        zz += weight * (zr * zr + zi * zi);
        xa += weight * (xr * ar + xi * ai);
        za += weight * (zr * ar + zi * ai);
        aa += weight * (ar * ar + ai * ai);
      }
      const determinant = xx * zz - xz * xz;
      if (!(determinant > 0)) continue;
      const effectiveness = (xa * zz - za * xz) / determinant;
      const damping = (za * xx - xa * xz) / determinant;
      const cost = aa - effectiveness * xa - damping * za;
      if (effectiveness > 0 && cost < best.cost) best = { effectiveness, damping, lag, delay, cost };
    }
  }
  const covariance = best.effectiveness > 0 ? momentCovariance({ rm, ra, ry }, omegas, weights, best) : null;
  return covariance && { ...best, covariance };
}

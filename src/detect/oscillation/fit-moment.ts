import type { Matrix } from "../../signal/index.ts";
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
  const delayed = Array.from({ length: DELAY_STEPS + 1 }, (_, j) =>
    omegas.map((omega) => lateness(omega, 0, j * STEP)),
  );
  for (let i = 0; i <= LAG_STEPS; i++) {
    const lagged = omegas.map((omega) => lateness(omega, i * STEP, 0));
    for (let j = 0; j <= DELAY_STEPS; j++) {
      let [xx, xz, zz, xa, za, aa] = [0, 0, 0, 0, 0, 0];
      for (let k = 0; k < omegas.length; k++) {
        const [lr, li] = lagged[k]!;
        const [dr, di] = delayed[j]![k]!;
        const [re, im] = [lr * dr - li * di, lr * di + li * dr];
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

import { leastSquaresOrNull, type Matrix, matrix } from "../../signal/index.ts";
import { lateness } from "./lateness.ts";
import type { SetPointSpectra } from "./set-point-spectra.ts";

/** Acceleration = effectiveness x moment, later by a first-order lag and a delay, less damping x rate. */
export interface MomentModel {
  /** angular acceleration a unit of moment */
  readonly effectiveness: number;
  /** 1/s */
  readonly damping: number;
  /** s */
  readonly lag: number;
  readonly delay: number;
}

/**
 * Covariance of the logarithm of the effectiveness, of lag, delay and damping (4 x 4) at the best fit. Segments overlap by half and a Hann window joins neighbouring frequencies, so that half of
 * the numbers are news: real and imaginary part of each, taken for independent, make up for it. What the model leaves
 * beyond the noise widens it.
 */
export function momentCovariance(
  { rm, ra, ry }: Pick<SetPointSpectra, "rm" | "ra" | "ry">,
  omegas: readonly number[],
  weights: readonly number[],
  { effectiveness, damping, lag, delay }: MomentModel,
): Matrix | null {
  const design = matrix(2 * omegas.length, 4);
  const left = new Float64Array(2 * omegas.length);
  for (const [k, omega] of omegas.entries()) {
    const [re, im] = lateness(omega, lag, delay);
    const [mr, mi] = [
      effectiveness * (re * rm.re[k]! - im * rm.im[k]!),
      effectiveness * (im * rm.re[k]! + re * rm.im[k]!),
    ];
    const root = Math.sqrt(weights[k]!);
    // d/dlag of 1 / (1 + i omega lag) is itself times -i omega / (1 + i omega lag); d/ddelay is itself times -i omega.
    const fall = omega / (1 + (omega * lag) ** 2);
    const [lr, li] = [-omega * lag * fall, -fall];
    const columns = [
      [mr, mi],
      [mr * lr - mi * li, mr * li + mi * lr],
      [omega * mi, -omega * mr],
      [-ry.re[k]!, -ry.im[k]!],
    ];
    for (const [c, [a, b]] of (columns as [number, number][]).entries()) {
      design.data[8 * k + c] = root * a;
      design.data[8 * k + 4 + c] = root * b;
    }
    left[2 * k] = root * (ra.re[k]! - mr + damping * ry.re[k]!);
    left[2 * k + 1] = root * (ra.im[k]! - mi + damping * ry.im[k]!);
  }
  const fit = leastSquaresOrNull(design, left);
  if (fit === null) return null;
  const { covariance, residualVariance } = fit;
  const scale = Math.max(1, 2 * residualVariance) / residualVariance;
  return { ...covariance, data: covariance.data.map((value) => value * scale) };
}

import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import type { Span } from "../../log/channel.ts";
import { leastSquaresOrNull, type Matrix, matrix } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import { axisMotion } from "./axis-motion.ts";
import { momentChannel } from "./motor-moment.ts";
import { onWindow } from "./on-window.ts";
import { type SetPointSpectra, setPointSpectra, sumOf } from "./set-point-spectra.ts";
import { unwrapped } from "./unwrapped.ts";

/** How an axis answered the moment that its motors were asked for, fitted on a part of the flight. */
export interface MomentResponse {
  readonly from: "motors" | "output";
  /** angular acceleration over moment: 1/(kg*m2), one over the moment of inertia, where the moment's size is known */
  readonly effectiveness: Estimate;
  /** s, of the motors, as a first-order lag; and by which the moment comes later besides, and the rate shows later */
  readonly lag: Estimate;
  readonly delay: Estimate;
  /** acceleration over moment where the motion swings and grows so: size with its factor, phase with its half-width */
  at(
    omega: number,
    growth: number,
  ): { readonly gain: number; readonly factor: number; readonly phase: number; readonly reach: number };
}

/** s, of a segment: many times the motors' lag, short enough for many in a flight */
const SEGMENT = 4;
/** s to either side of what is left out */
const CLEAR = 1;
/** Hz, and share of the sample rate, between which the answer is compared */
const BAND = { low: 0.5, high: 10, share: 0.3 };
/** Share of the moment's power that the set point has to account for at a frequency. */
const EXCITED = 0.5;
const FEWEST_FREQUENCIES = 5;
const FEWEST_SEGMENTS = 10;
/** s: lags and delays that are tried */
const LAGS = { step: 0.0025, most: 0.15 };
const DELAYS = { step: 0.0025, most: 0.08 };
/** Half-width of a 95 % interval over the deviation, a third wider than of a normal error. */
const REACH = 1.96 * 1.3;
/**
 * Half-widths of what the model leaves out: thrust goes by a curve, and motors follow by a lag that is not quite of first
 * order, which trades lag for delay. This, and the third, from 21 simulated fits (seeds 20001 to 20020).
 */
const MODEL = { size: 0.05, lag: 0.012, delay: 0.006 };

/**
 * Fits effectiveness, lag and delay of the motors' moment to the angular acceleration of an axis, outside some spans.
 *
 * The controller answers every gust, so that moment and acceleration are bound to each other by more than the motors;
 * what both owe to the attitude set point is not. Cross spectra with the set point therefore stand for both, frequency
 * by frequency, where it accounts for half of the moment; effectiveness and aerodynamic damping are least squares at
 * each lag and delay of a grid. Intervals from what else turned the axis: acceleration that the moment does not make.
 *
 * @returns null where channels are missing, or the set point moved too little for a fit
 * @see Ljung 1999, System Identification, sections 13.4 and 13.5 (closed loop: joint input-output, instruments), and
 *   Soderstrom & Stoica 1983, Instrumental Variable Methods for System Identification (covariance), both from memory
 */
export function momentResponse(flight: Flight, axis: Axis, without: readonly Span[]): MomentResponse | null {
  const motion = axisMotion(flight, axis);
  const moment = momentChannel(flight, axis);
  const asked = channelOf(flight, `attitude.${axis}.setpoint`);
  if (motion === null || moment === null || asked === undefined) return null;
  const length = Math.round(SEGMENT * motion.rate);
  const setpoint = unwrapped(asked);
  const isClear = (start: number) =>
    without.every((span) => start + SEGMENT < span.start - CLEAR || start > span.end + CLEAR);
  const bins = binsOf(length, Math.min(motion.rate, moment.rate, asked.rate, motion.channel.rate));
  const segments: SetPointSpectra[] = [];
  for (const piece of motion.pieces) {
    for (let from = 0; from + length <= piece.values.length; from += length >> 1) {
      const start = piece.start + from / piece.rate;
      if (!isClear(start)) continue;
      const input = onWindow(moment, start, piece.rate, length);
      const instrument = onWindow(setpoint, start, piece.rate, length);
      if (input && instrument)
        segments.push(setPointSpectra(piece.values.subarray(from, from + length), input, instrument, piece.rate, bins));
    }
  }
  if (segments.length < FEWEST_SEGMENTS) return null;
  const total = sumOf(segments);
  const used = [...bins.keys()].filter(
    (k) => total.rm.re[k]! ** 2 + total.rm.im[k]! ** 2 >= EXCITED * total.rr[k]! * total.mm[k]!,
  );
  if (used.length < FEWEST_FREQUENCIES) return null;
  const omegas = bins.map((bin) => (2 * Math.PI * bin * motion.rate) / length);
  const first = fitOf(
    total,
    used,
    omegas,
    used.map((k) => 1 / (total.rr[k]! * total.aa[k]!)),
  );
  // Weights by what else turned the axis, which the first fit tells well enough.
  const fit = first && fitOf(total, used, omegas, weightsOf(total, used, omegas, first, segments.length));
  if (!fit) return null;
  const spread = (slopes: Slopes) => REACH * deviationOf(fit, slopes);
  const { effectiveness, lag, delay } = fit;
  const factorOf = (slopes: Slopes) => Math.exp(Math.hypot(spread(slopes), MODEL.size));
  const factor = factorOf({ size: 1, lag: 0, delay: 0 });
  const plusMinus = (value: number, by: number): Estimate => ({
    value,
    unit: "s",
    low: Math.max(0, value - by),
    high: value + by,
  });
  return {
    from: moment.from,
    effectiveness: {
      value: effectiveness,
      unit: moment.isInNewtonMetres ? "1/(kg*m2)" : "1",
      low: effectiveness / factor,
      high: effectiveness * factor,
    },
    lag: plusMinus(lag, Math.hypot(spread({ size: 0, lag: 1, delay: 0 }), MODEL.lag)),
    delay: plusMinus(delay, Math.hypot(spread({ size: 0, lag: 0, delay: 1 }), MODEL.delay)),
    at: (omega, growth) => {
      const [re, im] = [1 + growth * lag, omega * lag];
      const square = re * re + im * im;
      return {
        gain: (effectiveness * Math.exp(-growth * delay)) / Math.sqrt(square),
        factor: factorOf({ size: 1, lag: -(growth * re + omega * im) / square, delay: -growth }),
        phase: -omega * delay - Math.atan2(im, re),
        reach: spread({ size: 0, lag: -omega / square, delay: -omega }),
      };
    },
  };
}

interface Fit {
  readonly effectiveness: number;
  readonly damping: number;
  readonly lag: number;
  readonly delay: number;
  /** of the logarithm of the effectiveness, lag, delay and damping */
  readonly covariance: Matrix;
}

/** By how much a quantity changes with the logarithm of the effectiveness, with the lag and with the delay. */
interface Slopes {
  readonly size: number;
  readonly lag: number;
  readonly delay: number;
}

function deviationOf({ covariance }: Fit, { size, lag, delay }: Slopes): number {
  const slopes = [size, lag, delay];
  let square = 0;
  for (const [i, a] of slopes.entries())
    for (const [k, b] of slopes.entries()) square += a * b * covariance.data[i * covariance.columns + k]!;
  return Math.sqrt(square);
}

function binsOf(length: number, rate: number): number[] {
  const high = Math.min(BAND.high, BAND.share * rate);
  const bins: number[] = [];
  for (let bin = Math.ceil(BAND.low * SEGMENT); bin <= high * SEGMENT && bin < length / 2; bin++) bins.push(bin);
  return bins;
}

/** The answer of the motors alone, without size. */
function lateness(omega: number, lag: number, delay: number): readonly [re: number, im: number] {
  const size = 1 / Math.hypot(1, omega * lag);
  const turn = -omega * delay - Math.atan(omega * lag);
  return [size * Math.cos(turn), size * Math.sin(turn)];
}

/** One over the variance of a cross spectrum with the set point: its power times that of the acceleration left over. */
function weightsOf(
  { rr, mm, aa, ma }: SetPointSpectra,
  used: readonly number[],
  omegas: readonly number[],
  { effectiveness, lag, delay }: Fit,
  segments: number,
): number[] {
  return used.map((k) => {
    const [re, im] = lateness(omegas[k]!, lag, delay);
    const along = re * ma.re[k]! + im * ma.im[k]!;
    const left = aa[k]! - 2 * effectiveness * along + effectiveness ** 2 * (re * re + im * im) * mm[k]!;
    return segments / (rr[k]! * Math.max(left, 1e-6 * aa[k]!));
  });
}

/** Effectiveness, damping, lag and delay that account best for the acceleration; null where none above zero do. */
function fitOf(
  { rm, ra, ry }: SetPointSpectra,
  used: readonly number[],
  omegas: readonly number[],
  weights: readonly number[],
): Fit | null {
  let best = { effectiveness: 0, damping: 0, lag: 0, delay: 0, cost: Number.POSITIVE_INFINITY };
  for (let i = 0; i * LAGS.step <= LAGS.most; i++) {
    for (let j = 0; j * DELAYS.step <= DELAYS.most; j++) {
      const [lag, delay] = [i * LAGS.step, j * DELAYS.step];
      let [xx, xz, zz, xa, za, aa] = [0, 0, 0, 0, 0, 0];
      for (const [n, k] of used.entries()) {
        const [re, im] = lateness(omegas[k]!, lag, delay);
        const [xr, xi] = [re * rm.re[k]! - im * rm.im[k]!, im * rm.re[k]! + re * rm.im[k]!];
        const [zr, zi] = [-ry.re[k]!, -ry.im[k]!];
        const [ar, ai] = [ra.re[k]!, ra.im[k]!];
        const weight = weights[n]!;
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
  const covariance = best.effectiveness > 0 ? covarianceOf({ rm, ra, ry }, used, omegas, weights, best) : null;
  return covariance && { ...best, covariance };
}

/**
 * Covariance at the best fit. Segments overlap by half and a Hann window joins neighbouring frequencies, so that half of
 * the numbers are news: real and imaginary part of each, taken for independent, make up for it. What the model leaves
 * beyond the noise widens it.
 */
function covarianceOf(
  { rm, ra, ry }: Pick<SetPointSpectra, "rm" | "ra" | "ry">,
  used: readonly number[],
  omegas: readonly number[],
  weights: readonly number[],
  { effectiveness, damping, lag, delay }: Omit<Fit, "covariance">,
): Matrix | null {
  const design = matrix(2 * used.length, 4);
  const left = new Float64Array(2 * used.length);
  for (const [n, k] of used.entries()) {
    const omega = omegas[k]!;
    const [re, im] = lateness(omega, lag, delay);
    const [mr, mi] = [
      effectiveness * (re * rm.re[k]! - im * rm.im[k]!),
      effectiveness * (im * rm.re[k]! + re * rm.im[k]!),
    ];
    const root = Math.sqrt(weights[n]!);
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
      design.data[8 * n + c] = root * a;
      design.data[8 * n + 4 + c] = root * b;
    }
    left[2 * n] = root * (ra.re[k]! - mr + damping * ry.re[k]!);
    left[2 * n + 1] = root * (ra.im[k]! - mi + damping * ry.im[k]!);
  }
  const fit = leastSquaresOrNull(design, left);
  if (fit === null) return null;
  const { covariance, residualVariance } = fit;
  const scale = Math.max(1, 2 * residualVariance) / residualVariance;
  return { ...covariance, data: covariance.data.map((value) => value * scale) };
}

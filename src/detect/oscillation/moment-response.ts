import type { Axis } from "../../aircraft/index.ts";
import type { Flight } from "../../flight/index.ts";
import type { Span } from "../../log/channel.ts";
import type { Estimate } from "../evidence.ts";
import { fitMoment, type MomentFit } from "./fit-moment.ts";
import { momentSpectra } from "./moment-spectra.ts";

/** How an axis answered the moment that its motors were asked for, fitted on a part of the flight. */
export interface MomentResponse {
  readonly from: "motors" | "output";
  /** angular acceleration over moment, one over the moment of inertia; null where the moment's unit is not known */
  readonly effectiveness: Estimate | null;
  /** s, of the motors, as a first-order lag; and by which the moment comes later besides, and the rate shows later */
  readonly lag: Estimate;
  readonly delay: Estimate;
  /**
   * Acceleration over moment where the motion swings (omega, rad/s) and grows (1/s) so; null far from the frequencies
   * that were compared, where the model has not been seen to hold.
   */
  at(omega: number, growth: number): MomentAnswer | null;
}

/** Size with its factor to either side, phase (rad) with its half-width. */
export interface MomentAnswer {
  readonly gain: number;
  readonly factor: number;
  readonly phase: number;
  readonly reach: number;
}

/** Half-width of a 95 % interval over the deviation, a third wider than of a normal error. */
const REACH = 1.96 * 1.3;
/**
 * Half-widths of what the model leaves out: thrust goes by a curve, and motors follow by a lag that is not quite of first
 * order, which trades lag for delay. This, and the third, from 21 simulated fits (seeds 20001 to 20020).
 */
const MODEL = { size: 0.05, lag: 0.012, delay: 0.006 };
/** Factor below the lowest, and above the highest frequency that was compared, up to which the answer is taken. */
const BEYOND = 1.5;

/**
 * Fits effectiveness, lag and delay of the motors' moment to the angular acceleration of an axis, outside some spans.
 *
 * The controller answers every gust, so that moment and acceleration are bound to each other by more than the motors;
 * what both owe to the attitude set point is not. Cross spectra with the set point therefore stand for both, frequency
 * by frequency, where it accounts for half of the moment; effectiveness and aerodynamic damping are least squares at
 * each lag and delay of a grid. Intervals from what else turned the axis: acceleration that the moment does not make.
 *
 * @returns null where channels are missing, the set point moved too little for a fit, or the answer comes later than any
 *   that is tried
 * @see Ljung 1999, System Identification, sections 13.4 and 13.5 (closed loop: joint input-output, instruments), and
 *   Soderstrom & Stoica 1983, Instrumental Variable Methods for System Identification (covariance), both from memory
 */
export function momentResponse(flight: Flight, axis: Axis, without: readonly Span[]): MomentResponse | null {
  const seen = momentSpectra(flight, axis, without);
  const fit = seen && fitMoment(seen);
  if (!fit) return null;
  const reachOf = (slopes: Slopes) =>
    Math.hypot(
      REACH * deviationOf(fit, slopes),
      slopes.size * MODEL.size,
      slopes.lag * MODEL.lag,
      slopes.delay * MODEL.delay,
    );
  const { effectiveness, lag, delay } = fit;
  const [lowest, highest] = [seen.omegas[0]! / BEYOND, seen.omegas.at(-1)! * BEYOND];
  const factor = Math.exp(reachOf({ size: 1, lag: 0, delay: 0 }));
  const plusMinus = (value: number, by: number): Estimate => ({
    value,
    unit: "s",
    low: Math.max(0, value - by),
    high: value + by,
  });
  return {
    from: seen.from,
    effectiveness: seen.isInNewtonMetres
      ? { value: effectiveness, unit: "1/(kg*m^2)", low: effectiveness / factor, high: effectiveness * factor }
      : null,
    lag: plusMinus(lag, reachOf({ size: 0, lag: 1, delay: 0 })),
    delay: plusMinus(delay, reachOf({ size: 0, lag: 0, delay: 1 })),
    at: (omega, growth) => {
      if (omega < lowest || omega > highest) return null;
      const [re, im] = [1 + growth * lag, omega * lag];
      const square = re * re + im * im;
      return {
        gain: (effectiveness * Math.exp(-growth * delay)) / Math.sqrt(square),
        factor: Math.exp(reachOf({ size: 1, lag: -(growth * re + omega * im) / square, delay: -growth })),
        phase: -omega * delay - Math.atan2(im, re),
        reach: reachOf({ size: 0, lag: -omega / square, delay: -omega }),
      };
    },
  };
}

/** By how much a quantity changes with the logarithm of the effectiveness, with the lag and with the delay. */
interface Slopes {
  readonly size: number;
  readonly lag: number;
  readonly delay: number;
}

function deviationOf({ covariance }: MomentFit, { size, lag, delay }: Slopes): number {
  const slopes = [size, lag, delay];
  let square = 0;
  for (const [i, a] of slopes.entries())
    for (const [k, b] of slopes.entries()) square += a * b * covariance.data[i * covariance.columns + k]!;
  return Math.sqrt(square);
}

import type { Axis } from "../../aircraft/index.ts";
import type { Flight } from "../../flight/index.ts";
import { wrapAngle } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import { type MomentResponse, momentResponse } from "./moment-response.ts";
import type { CommandedMoment } from "./motor-moment.ts";
import { relate } from "./second-witness.ts";

/**
 * How the moment of the motors stands to the motion. With acceleration a, motors' moment over inertia m and everything
 * else d, a = m + d. All numbers come from the ratio m / a in the band of the oscillation.
 */
export interface DriveMeasures {
  /** rad, by which the acceleration leads the moment after motor lag; 0 where the motors make the motion */
  readonly phase: Estimate;
  /** |m / a|: 1 where the motors account for all of the motion; null where the size of the moment is unknown */
  readonly share: Estimate | null;
  /** |1 - m / a|: what the motors leave unexplained; null likewise */
  readonly unexplained: Estimate | null;
  /** net work of the moment in one cycle over the motion's kinetic energy; below zero the motors take energy out */
  readonly energy: Estimate | null;
  /** share of the moment's power that goes with the motion */
  readonly coherence: number;
  /** what size and lateness of the motors' answer were taken from: the rest of the flight, the aircraft file, or usage */
  readonly answerFrom: "flight" | "aircraft" | "usual";
  /** fitted on the rest of the flight; null where it did not tell */
  readonly fitted: Pick<MomentResponse, "effectiveness" | "lag" | "delay"> | null;
}

/** s, usual lag of a motor with its propeller and the range it may lie in, where the aircraft file states none */
const USUAL_LAG = { value: 0.05, low: 0.015, high: 0.1 };
/** s, by which the moment comes later than its command and the rate shows later than the motion, and how uncertain it is */
const USUAL_DELAY = { value: 0.01, reach: 0.01 };
/** Share by which a stated motor lag may be off where the file gives no error. */
const LAG_ERROR = 0.25;

/** Factor, and rad, to either side within which a fit has to be known to be better than what is usual. */
const GOOD_FIT = { factor: 1.5, reach: 0.5 };

/** Moment balance and energy flow of an oscillation. */
export function driveMeasures(flight: Flight, axis: Axis, mode: ModeMeasures, moment: CommandedMoment): DriveMeasures {
  const { magnitude, phase, reach, coherence } = relate(moment.values, mode);
  const omega = 2 * Math.PI * mode.frequency.value;
  const sigma = mode.trend.growth.value;
  const answer = fittedAnswer(flight, axis, mode, moment) ?? supposedAnswer(flight, moment, omega, sigma);
  const { from: answerFrom, fitted } = answer;
  // Acceleration over rate is sigma + i omega.
  const theta = wrapAngle(Math.atan2(omega, sigma) - phase - answer.phase);
  const phaseReach = Math.min(Math.PI, Math.hypot(reach, answer.reach, (omega * moment.interval) / 2));
  const phaseEstimate = { value: theta, unit: "rad", low: theta - phaseReach, high: theta + phaseReach };
  const common = { phase: phaseEstimate, coherence, answerFrom, fitted };
  if (answer.size === null) return { ...common, share: null, unexplained: null, energy: null };
  const share = (answer.size.gain * magnitude) / Math.hypot(sigma, omega);
  const factor = Math.exp(Math.hypot(Math.log(answer.size.factor), Math.min(1, reach)));
  const shares = { value: share, unit: "1", low: share / factor, high: share * factor };
  const over = (f: (size: number, angle: number) => number): Estimate => spanOf(shares, phaseEstimate, f);
  return {
    ...common,
    share: shares,
    unexplained: over((size, angle) => Math.hypot(1 - size * Math.cos(angle), size * Math.sin(angle))),
    energy: over((size, angle) => 2 * Math.PI * size * Math.sin(angle)),
  };
}

/** Acceleration over commanded moment at the oscillation. */
interface Answer {
  readonly from: DriveMeasures["answerFrom"];
  readonly fitted: DriveMeasures["fitted"];
  /** rad, below zero where the acceleration comes later, and its half-width */
  readonly phase: number;
  readonly reach: number;
  /** rad/s2 a unit, with the factor to either side; null where unknown */
  readonly size: { readonly gain: number; readonly factor: number } | null;
}

/** The answer on the rest of the flight, where that tells it well enough. */
function fittedAnswer(flight: Flight, axis: Axis, mode: ModeMeasures, moment: CommandedMoment): Answer | null {
  const response = momentResponse(flight, axis, [mode]);
  if (response === null || response.from !== moment.from) return null;
  const answer = response.at(2 * Math.PI * mode.frequency.value, mode.trend.growth.value);
  if (answer === null || answer.factor > GOOD_FIT.factor || answer.reach > GOOD_FIT.reach) return null;
  const { gain, factor, phase, reach } = answer;
  return { from: "flight", fitted: response, phase, reach, size: { gain, factor } };
}

/** What the aircraft file states of the motors' lag, or is usual, and what an aircraft of usual inertia does. */
function supposedAnswer(flight: Flight, { effect }: CommandedMoment, omega: number, sigma: number): Answer {
  const stated = flight.aircraft?.thrust.timeConstant ?? null;
  const error = stated && 2 * (stated.error ?? (LAG_ERROR / 2) * stated.value);
  const lag =
    stated === null
      ? USUAL_LAG
      : { value: stated.value, low: Math.max(0, stated.value - error!), high: stated.value + error! };
  const lagPhase = (tau: number) => Math.atan2(omega * tau, 1 + sigma * tau);
  const lagReach = Math.max(lagPhase(lag.high) - lagPhase(lag.value), lagPhase(lag.value) - lagPhase(lag.low));
  const gain = 1 / Math.hypot(1 + sigma * lag.value, omega * lag.value);
  return {
    from: stated === null ? "usual" : "aircraft",
    fitted: null,
    phase: -lagPhase(lag.value) - omega * USUAL_DELAY.value,
    reach: Math.hypot(lagReach, omega * USUAL_DELAY.reach),
    size: effect && { gain: effect.value * gain, factor: effect.factor },
  };
}

const GRID = 8;

/** A function of size and angle at their values, and between its extremes over both intervals. */
function spanOf(size: Estimate, angle: Estimate, f: (size: number, angle: number) => number): Estimate {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i <= GRID; i++) {
    const s = size.low! * (size.high! / size.low!) ** (i / GRID);
    for (let k = 0; k <= GRID; k++) {
      const value = f(s, angle.low! + ((angle.high! - angle.low!) * k) / GRID);
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  return { value: f(size.value, angle.value), unit: "1", low, high };
}

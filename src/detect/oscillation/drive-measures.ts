import type { Flight } from "../../flight/index.ts";
import { wrapAngle } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import type { ModeMeasures } from "./mode-measures.ts";
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
}

/** s, usual lag of a motor with its propeller and the range it may lie in, where the aircraft file states none */
const USUAL_LAG = { value: 0.05, low: 0.015, high: 0.1 };
/** s, by which the moment comes later than its command and the rate shows later than the motion, and how uncertain it is */
const USUAL_DELAY = { value: 0.01, reach: 0.01 };
/** Share by which a stated motor lag may be off where the file gives no error. */
const LAG_ERROR = 0.25;

/** Moment balance and energy flow of an oscillation. */
export function driveMeasures(flight: Flight, mode: ModeMeasures, moment: CommandedMoment): DriveMeasures {
  const { magnitude, phase, reach, coherence } = relate(moment.values, mode);
  const omega = 2 * Math.PI * mode.frequency.value;
  const sigma = mode.trend.growth.value;
  const stated = flight.aircraft?.thrust.timeConstant ?? null;
  const lag =
    stated === null
      ? USUAL_LAG
      : {
          value: stated.value,
          low: Math.max(0, stated.value - 2 * (stated.error ?? (LAG_ERROR / 2) * stated.value)),
          high: stated.value + 2 * (stated.error ?? (LAG_ERROR / 2) * stated.value),
        };
  // Acceleration over rate is sigma + i omega; the moment reaches the air through a first-order lag.
  const accelerationPhase = Math.atan2(omega, sigma);
  const lagPhase = (tau: number) => Math.atan2(omega * tau, 1 + sigma * tau);
  const lead = accelerationPhase - (phase - lagPhase(lag.value)) + omega * USUAL_DELAY.value;
  const lagReach = Math.max(lagPhase(lag.high) - lagPhase(lag.value), lagPhase(lag.value) - lagPhase(lag.low));
  const skew = omega * Math.hypot(USUAL_DELAY.reach, moment.interval / 2);
  const phaseReach = Math.min(Math.PI, Math.hypot(reach, lagReach, skew));
  const theta = wrapAngle(lead);
  const phaseEstimate = { value: theta, unit: "rad", low: theta - phaseReach, high: theta + phaseReach };
  if (moment.effect === null) return { phase: phaseEstimate, share: null, unexplained: null, energy: null, coherence };
  const gain = Math.hypot(1 + sigma * lag.value, omega * lag.value);
  const share = (moment.effect.value * magnitude) / gain / Math.hypot(sigma, omega);
  const factor = Math.exp(Math.hypot(Math.log(moment.effect.factor), Math.min(1, reach)));
  const shares = { value: share, unit: "1", low: share / factor, high: share * factor };
  const over = (f: (size: number, angle: number) => number): Estimate => spanOf(shares, phaseEstimate, f);
  return {
    phase: phaseEstimate,
    share: shares,
    unexplained: over((size, angle) => Math.hypot(1 - size * Math.cos(angle), size * Math.sin(angle))),
    energy: over((size, angle) => 2 * Math.PI * size * Math.sin(angle)),
    coherence,
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

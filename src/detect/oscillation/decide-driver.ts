import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight, standsStill } from "../../flight/index.ts";
import { wrapAngle } from "../../signal/index.ts";
import { type DriveMeasures, driveMeasures } from "./drive-measures.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import type { CommandedMoment } from "./motor-moment.ts";
import type { PhasorRatio } from "./phasor-ratio.ts";
import { relationTo } from "./second-witness.ts";
import { type SidePull, sidePull } from "./side-pull.ts";
import { weighDriver } from "./weigh-driver.ts";

export type Driver = "controller" | "external" | "coupled" | "commanded" | "undetermined";
export type Loop = "rate" | "attitude" | "velocity";

/** What drove an oscillation, which loop carried it, and on what grounds. */
export interface DriverDecision {
  readonly driver: Driver;
  readonly loop: Loop;
  /** estimated probability that the driver is right; 0 where undetermined */
  readonly confidence: number;
  /** what decided, or kept from deciding */
  readonly reason:
    | "set-point"
    | "moment-balance"
    | "energy-flow"
    | "both-parts"
    | "side-pull"
    | "held-against"
    | "order-or-loop"
    | "no-moment"
    | "moment-incoherent"
    | "intervals-too-wide";
  readonly drive: DriveMeasures | null;
  /** what pulled sideways; null where the specific force is not logged */
  readonly pull: SidePull | null;
  /** response over set point of each loop: gain, and lag in rad; null where not logged, or not moving */
  readonly rateResponse: LoopResponse | null;
  readonly attitudeResponse: LoopResponse | null;
}

/** How a loop answered its set point at the oscillation's frequency. */
export interface LoopResponse {
  readonly gain: number;
  /** rad, positive where the response comes after the set point */
  readonly lag: number;
  readonly coherence: number;
}

/** From here on set point and response move together. */
const COHERENT = 0.8;
/** Gains of a response that merely follows its set point: no resonance, no want of authority. */
const ORDINARY_GAIN = [0.5, 1.5] as const;
/** rad; a loop that follows lags less (its phase margin is then still at hand); with 90 deg the next loop out is lost */
const ORDINARY_LAG = [-0.35, 1.05] as const;
/** Hz; people do not keep up a steady swing of a stick at more than this (common practice in pilot modelling) */
const FASTEST_HAND = 1.2;
/** Gain above which a loop swings by itself rather than after its set point: 6 dB, a sensitivity peak no loop should have */
const RESONANT_GAIN = 2;

/** Decides by the set points first, then by moment balance and energy flow together. */
export function decideDriver(
  flight: Flight,
  axis: Axis,
  mode: ModeMeasures,
  moment: CommandedMoment | null,
): DriverDecision {
  const rateResponse = responseOf(relationTo(flight, `rate.${axis}.setpoint`, mode), 1);
  const toAttitude = relationTo(flight, `attitude.${axis}.measured`, mode);
  const attitudeResponse = attitudeResponseOf(
    isHeld(flight, axis) ? null : relationTo(flight, `attitude.${axis}.setpoint`, mode),
    toAttitude,
    mode.frequency.value,
  );
  const loop = loopOf(rateResponse, attitudeResponse, mode.frequency.value);
  const drive = moment && driveMeasures(flight, axis, mode, moment);
  const pull = sidePull(flight, axis, mode);
  const rest = { loop, drive, pull, rateResponse, attitudeResponse };
  const outermost = attitudeResponse ?? rateResponse;
  const isAsked = outermost !== null && outermost.coherence >= COHERENT && isOrdinary(outermost.gain);
  if (isAsked && mode.trend.trend !== "growing" && outermost.lag >= ORDINARY_LAG[0]) {
    if (outermost.lag <= ORDINARY_LAG[1])
      return { ...rest, driver: "commanded", confidence: 0.85, reason: "set-point" };
    // A slow response to an order and a slow loop around the outermost one look alike, unless no hand is that fast.
    if (mode.frequency.value < FASTEST_HAND && isAbrupt(mode))
      return { ...rest, driver: "commanded", confidence: 0.8, reason: "set-point" };
    if (mode.frequency.value < FASTEST_HAND)
      return { ...rest, driver: "undetermined", confidence: 0, reason: "order-or-loop" };
  }
  return { ...rest, ...weighDriver(axis, drive, mode.frequency.value, isAsked, mode.trend.trend === "growing", pull) };
}

/** Whether the attitude set point is one value for the whole flight: an order or an idle column, which tells of no loop. */
function isHeld(flight: Flight, axis: Axis): boolean {
  const [setpoint, measured] = ["setpoint", "measured"].map((side) => channelOf(flight, `attitude.${axis}.${side}`));
  return setpoint !== undefined && measured !== undefined && standsStill(setpoint, measured);
}

/** A loop that loses its stability takes its time to swing; what is at its full size at once was begun by someone. */
const isAbrupt = ({ trend, onset }: ModeMeasures) =>
  trend.trend === "sustained" && trend.rise >= ABRUPT_RISE && onset.low !== undefined;

/** Largest envelope over that at the onset; a smaller rise says nothing of how it came. */
const ABRUPT_RISE = 2;

const isOrdinary = (gain: number) => gain >= ORDINARY_GAIN[0] && gain <= ORDINARY_GAIN[1];

/** @param response what the axis did over its rate, as magnitude and phase */
function responseOf(setpoint: PhasorRatio | null, size: number, phase = 0): LoopResponse | null {
  if (setpoint === null || setpoint.magnitude === 0) return null;
  return {
    gain: size / setpoint.magnitude,
    lag: wrapAngle(setpoint.phase - phase),
    coherence: setpoint.coherence,
  };
}

function attitudeResponseOf(setpoint: PhasorRatio | null, measured: PhasorRatio | null, frequency: number) {
  // An attitude that is not logged is the integral of the rate: smaller by the angular frequency, a quarter late.
  return measured === null
    ? responseOf(setpoint, 1 / (2 * Math.PI * frequency), -Math.PI / 2)
    : responseOf(setpoint, measured.magnitude, measured.phase);
}

/**
 * 1/s; an attitude loop asks for this many times its error as a rate at least, and for ten to a hundred times as much
 * (common practice), so that a rate set point that swings by less for the angle is not made by one
 */
const LEAST_ATTITUDE_GAIN = 0.1;

/** The innermost loop that swings by more than its set point asks; the one outside the last logged where none does. */
function loopOf(rate: LoopResponse | null, attitude: LoopResponse | null, frequency: number): Loop {
  // A rate set point that is not moved along, under an attitude set point that is, belongs to no loop in use.
  const isIdle = (one: LoopResponse) =>
    one.coherence < 0.5 || one.gain > (2 * Math.PI * frequency) / LEAST_ATTITUDE_GAIN;
  const isUsed = rate !== null && !(isIdle(rate) && attitude !== null && !isOwn(attitude));
  if (isUsed ? isOwn(rate) : attitude === null) return "rate";
  if (attitude === null || isOwn(attitude)) return "attitude";
  return "velocity";
}

const isOwn = ({ gain, coherence }: LoopResponse) => gain > RESONANT_GAIN || coherence < 0.5;

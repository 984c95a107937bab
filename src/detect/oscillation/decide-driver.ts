import type { Axis } from "../../aircraft/index.ts";
import type { Flight } from "../../flight/index.ts";
import { normalCdf } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";
import { type DriveMeasures, driveMeasures } from "./drive-measures.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import type { CommandedMoment } from "./motor-moment.ts";
import type { PhasorRatio } from "./phasor-ratio.ts";
import { relationTo } from "./second-witness.ts";

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
    | "no-moment"
    | "moment-incoherent"
    | "intervals-too-wide";
  readonly drive: DriveMeasures | null;
  /** response over set point of each loop: gain, and lag in rad; null where not logged */
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
    relationTo(flight, `attitude.${axis}.setpoint`, mode),
    toAttitude,
    mode.frequency.value,
  );
  const loop = loopOf(rateResponse, attitudeResponse);
  const drive = moment && driveMeasures(flight, mode, moment);
  const rest = { loop, drive, rateResponse, attitudeResponse };
  const outermost = attitudeResponse ?? rateResponse;
  if (outermost !== null && follows(outermost))
    return { ...rest, driver: "commanded", confidence: 0.85, reason: "set-point" };
  return { ...rest, ...byMoments(drive) };
}

function follows({ gain, lag, coherence }: LoopResponse): boolean {
  return (
    coherence >= COHERENT &&
    gain >= ORDINARY_GAIN[0] &&
    gain <= ORDINARY_GAIN[1] &&
    lag >= ORDINARY_LAG[0] &&
    lag <= ORDINARY_LAG[1]
  );
}

/** @param response what the axis did over its rate, as magnitude and phase */
function responseOf(setpoint: PhasorRatio | null, size: number, phase = 0): LoopResponse | null {
  if (setpoint === null || setpoint.magnitude === 0) return null;
  const lag = setpoint.phase - phase;
  return {
    gain: size / setpoint.magnitude,
    lag: Math.atan2(Math.sin(lag), Math.cos(lag)),
    coherence: setpoint.coherence,
  };
}

function attitudeResponseOf(setpoint: PhasorRatio | null, measured: PhasorRatio | null, frequency: number) {
  // An attitude that is not logged is the integral of the rate: smaller by the angular frequency, a quarter late.
  return measured === null
    ? responseOf(setpoint, 1 / (2 * Math.PI * frequency), -Math.PI / 2)
    : responseOf(setpoint, measured.magnitude, measured.phase);
}

/** The innermost loop that swings by more than its set point asks; the one outside the last logged where none does. */
function loopOf(rate: LoopResponse | null, attitude: LoopResponse | null): Loop {
  // A rate set point that is not moved along, under an attitude set point that is, belongs to no loop in use.
  const isUsed = rate !== null && !(rate.coherence < 0.5 && attitude !== null && !isOwn(attitude));
  if (isUsed ? isOwn(rate) : attitude === null) return "rate";
  if (attitude === null || isOwn(attitude)) return "attitude";
  return "velocity";
}

const isOwn = ({ gain, coherence }: LoopResponse) => gain > RESONANT_GAIN || coherence < 0.5;

type Verdict = Pick<DriverDecision, "driver" | "confidence" | "reason">;

/**
 * rad; between a loop that drives itself (0) and a brake (-90 deg) lies the phase at which one takes the other's place.
 * Set between the two groups that simulated flights form.
 */
const BRAKING_PHASE = -0.7;
/** |m / a| below which the motors are too weak for the motion, and above which they would have made more of it. */
const LEAST_SHARE = 0.55;
const LEAST_CONFIDENCE = 0.8;

function byMoments(drive: DriveMeasures | null): Verdict {
  if (drive === null) return undetermined("no-moment");
  const { phase, share, coherence } = drive;
  if (coherence < LEAST_MOMENT_COHERENCE) {
    // Motors that do not take part cannot have made the motion, if their moment could be seen at all.
    if (share !== null && share.high! < LEAST_SHARE)
      return { driver: "external", confidence: LEAST_CONFIDENCE, reason: "moment-balance" };
    return undetermined("moment-incoherent");
  }
  const braking = probabilityBelow(phase, BRAKING_PHASE, (value) => value);
  if (braking >= LEAST_CONFIDENCE)
    return { driver: "external", confidence: Math.min(0.95, braking), reason: "energy-flow" };
  if (share === null) return undetermined("intervals-too-wide");
  const weak = probabilityBelow(share, LEAST_SHARE, Math.log);
  if (weak >= LEAST_CONFIDENCE)
    return { driver: "external", confidence: Math.min(0.95, weak), reason: "moment-balance" };
  const driving = (1 - braking) * (1 - weak);
  if (driving >= LEAST_CONFIDENCE)
    return { driver: "controller", confidence: Math.min(0.95, driving), reason: "moment-balance" };
  return undetermined("intervals-too-wide");
}

const LEAST_MOMENT_COHERENCE = 0.5;

/** Probability that a quantity lies below a threshold, its interval taken for a normal one on the given scale. */
function probabilityBelow({ value, low, high }: Estimate, threshold: number, scale: (x: number) => number): number {
  const deviation = (scale(high!) - scale(low!)) / (2 * 1.96);
  return normalCdf((scale(threshold) - scale(value)) / Math.max(deviation, 1e-9));
}

const undetermined = (reason: DriverDecision["reason"]): Verdict => ({ driver: "undetermined", confidence: 0, reason });

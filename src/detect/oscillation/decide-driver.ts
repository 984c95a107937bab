import type { Axis } from "../../aircraft/index.ts";
import type { Flight } from "../../flight/index.ts";
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
  if (rate === null || isOwn(rate)) return "rate";
  if (attitude === null || isOwn(attitude)) return "attitude";
  return "velocity";
}

const isOwn = ({ gain, coherence }: LoopResponse) => gain > RESONANT_GAIN || coherence < 0.5;

type Verdict = Pick<DriverDecision, "driver" | "confidence" | "reason">;

/** Share of the motion that the motors may leave unexplained, and less, where the loop drives it. */
const EXPLAINED = 0.45;
/** Net work per cycle over the motion's energy below which the motors clearly take energy out. */
const TAKEN_OUT = -0.6;

function byMoments(drive: DriveMeasures | null): Verdict {
  if (drive === null) return undetermined("no-moment");
  const { phase, share, unexplained, energy, coherence } = drive;
  if (coherence < 0.5)
    // Motors that do not take part cannot have made the motion, if their moment could be seen at all.
    return share !== null && share.high! < 0.5
      ? { driver: "external", confidence: 0.75, reason: "moment-balance" }
      : undetermined("moment-incoherent");
  if (share === null || unexplained === null || energy === null) {
    // Without the size of the moment its phase alone can tell a brake from a drive, not a drive from a bystander.
    if (phase.high! < -0.5) return { driver: "external", confidence: 0.75, reason: "energy-flow" };
    return undetermined("intervals-too-wide");
  }
  if (energy.high! < 0 && energy.value < TAKEN_OUT)
    return { driver: "external", confidence: 0.85, reason: "energy-flow" };
  if (share.high! < 0.8) return { driver: "external", confidence: 0.8, reason: "moment-balance" };
  if (unexplained.low! < EXPLAINED && Math.abs(phase.value) < 0.6 && share.low! < 1.25)
    return { driver: "controller", confidence: 0.85, reason: "moment-balance" };
  return undetermined("intervals-too-wide");
}

const undetermined = (reason: DriverDecision["reason"]): Verdict => ({ driver: "undetermined", confidence: 0, reason });

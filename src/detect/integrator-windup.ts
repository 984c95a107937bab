import { AXES, type Axis } from "../aircraft/index.ts";
import { channelOf, commandedMotors, type Flight } from "../flight/index.ts";
import type { Span } from "../log/channel.ts";
import { quantile } from "../signal/index.ts";
import type { Direction } from "./authority-series.ts";
import { type AxisLoop, axisLoops } from "./axis-loop.ts";
import type { Detector, Estimate, EvidenceBase } from "./evidence.ts";
import { findWindups, type Windup } from "./find-windups.ts";
import { type RebuiltIntegrator, rebuildIntegrator } from "./rebuild-integrator.ts";

/** An integral term that was driven on although a limit kept it from having any effect. */
export interface IntegratorWindupEvidence extends EvidenceBase {
  readonly kind: "integrator-windup";
  readonly axis: Axis;
  readonly loop: "rate";
  readonly direction: Direction;
  /** `logged`: the term itself is in the log; `rebuilt`: from a fit of the loop; `outward`: only what it did is seen */
  readonly evidence: "logged" | "rebuilt" | "outward";
  readonly stretches: readonly Span[];
  /** whether the term reached its own limit, and whether a motor came to a limit in the overshoot that followed */
  readonly isAtOwnLimit: boolean;
  readonly overshootAtLimit: boolean;
  /** largest integral term that the aircraft file allows, its unit */
  readonly limit: number | null;
  /** share of the demand that the fitted loop explains; null unless `rebuilt` */
  readonly explained: number | null;
}

/** A fit that explains less of the demand does not show what the integrator did. */
const LEAST_EXPLAINED = 0.5;
/** rad/s; an error below this drives no integrator far (common practice) */
const LEAST_ERROR = 0.01;
/** Moments from motor commands are shares of what hover has; integrators are commonly allowed this much of it. */
const USUAL_LIMIT_OF_HOVER = 0.6;
/** Share of its limit from which a rebuilt term, which carries the noise of the rates, counts as full. */
const REBUILT_FULL = 0.8;
/** rad; an axis that lost as much against its set point while at a limit, and ran past it after, was wound up */
const LOST_ANGLE = 0.8;
const OUTWARD_OVERSHOOT = 0.3;
/** Of the angle that another axis lost in the same event: with less than this an axis was dragged along. */
const DRAGGED = 0.5;
/** Overshoot, in parts of the error before, that is more than how such loops settle anyway. */
const REAL_OVERSHOOT = 0.2;
/** s after its end in which a wind-up's overshoot is looked for */
const RECOVERY = 5;

/**
 * Looks for integrator wind-up in the rate loops: in the logged integral term where there is one, else in one rebuilt
 * from the controller output or the motor commands, else by its outward signs.
 */
export const integratorWindup: Detector<IntegratorWindupEvidence> = {
  kind: "integrator-windup",
  missing(flight) {
    const has = (name: string) => channelOf(flight, name) !== undefined;
    const loops = AXES.filter((axis) => has(`rate.${axis}.measured`) && has(`rate.${axis}.setpoint`));
    const canLimit = loops.some((axis) => has(`rate.${axis}.output`) || has(`rate.${axis}.integrator`));
    return [
      ...(loops.length > 0 ? [] : ["rate.AXIS.measured", "rate.AXIS.setpoint"]),
      ...(canLimit || commandedMotors(flight).length > 0 ? [] : ["motor.N.command", "rate.AXIS.output"]),
    ];
  },
  detect(flight) {
    const wound = axisLoops(flight).map((loop): Wound => {
      const limit = flight.aircraft?.integratorLimit[loop.axis] ?? null;
      const term = termOf(flight, loop, limit);
      return { term, limit, windups: windupsOf(term, limit) };
    });
    return withoutDragged(wound).flatMap((one) => asEvidence(one));
  },
};

/** What was found on one axis. */
interface Wound {
  readonly term: IntegralTerm;
  readonly limit: number | null;
  readonly windups: readonly Windup[];
}

/**
 * Outward signs alone do not tell an axis that was wound up from one that was turned along while another ran away: a
 * body that tumbles about one axis loses ground about all. There only the axis that lost most is told, with those that
 * lost at least half as much.
 */
function withoutDragged(wound: readonly Wound[]): Wound[] {
  const lost = wound.flatMap(({ term, windups }) =>
    term.evidence === "outward" ? windups.map((windup) => ({ term, windup, angle: lostIn(term, windup) })) : [],
  );
  const isDragged = (own: IntegralTerm, windup: Windup) =>
    lost.some(
      ({ term, windup: other, angle }) =>
        term !== own &&
        windup.start < other.end + RECOVERY &&
        other.start < windup.end &&
        lostIn(own, windup) < DRAGGED * angle,
    );
  return wound.map((one) =>
    one.term.evidence === "outward"
      ? { ...one, windups: one.windups.filter((windup) => !isDragged(one.term, windup)) }
      : one,
  );
}

/** rad that an axis fell behind in one wind-up. */
function lostIn({ loop: { time }, integral }: IntegralTerm, { start, end, direction }: Windup): number {
  const from = time.indexOf(start);
  let most = 0;
  for (let i = from; i < time.length && time[i]! <= end; i++) {
    most = Math.max(most, direction * (integral[i]! - integral[from]!));
  }
  return most;
}

function asEvidence({ term, limit, windups }: Wound): IntegratorWindupEvidence[] {
  const { loop, evidence, unit, explained } = term;
  return (["positive", "negative"] as const).flatMap((direction): IntegratorWindupEvidence[] => {
    const own = windups.filter((windup) => windup.direction === (direction === "positive" ? 1 : -1));
    if (own.length === 0) return [];
    const worst = own.reduce((most, windup) => (windup.overshoot > most.overshoot ? windup : most));
    const unwinds = own.flatMap(({ unwind }) => unwind ?? []);
    const unwind: Estimate | null = unwinds.length === 0 ? null : { value: Math.max(...unwinds), unit: "s" };
    return [
      {
        kind: "integrator-windup",
        axis: loop.axis,
        loop: "rate",
        direction,
        evidence,
        start: own[0]!.start,
        end: own.at(-1)!.end,
        stretches: own.map(({ start, end }) => ({ start, end })),
        isAtOwnLimit: own.some(({ isAtOwnLimit }) => isAtOwnLimit),
        overshootAtLimit: own.some((windup) => overshootMeetsLimit(loop, windup)),
        limit,
        explained,
        confidence: confidenceOf(term),
        measures: {
          duration: { value: own.reduce((sum, { start, end }) => sum + end - start, 0), unit: "s" },
          peak: { value: Math.max(...own.map(({ peak }) => peak)), unit },
          overshoot: { value: worst.overshoot, unit: "1" },
          ...(unwind && { unwind }),
        },
      },
    ];
  });
}

/** The integral term of an axis as well as the log tells it. */
export interface IntegralTerm {
  readonly loop: AxisLoop;
  readonly evidence: IntegratorWindupEvidence["evidence"];
  /** n values at `loop.time`; for `outward` the angle lost while something was at a limit, rad */
  readonly integral: Float64Array;
  readonly unit: string;
  readonly explained: number | null;
}

function termOf(flight: Flight, loop: AxisLoop, limit: number | null): IntegralTerm {
  const { axis, integrator, output } = loop;
  if (integrator !== null) {
    const unit = channelOf(flight, `rate.${axis}.integrator`)!.unit;
    return { loop, evidence: "logged", integral: integrator, unit, explained: null };
  }
  const demand = output ?? loop.moment;
  const isCut = output === null ? loop.isLimited : loop.isOutputFull;
  const rebuilt =
    demand === null ? null : rebuildIntegrator({ ...loop, demand, isCut }, output === null ? null : limit);
  if (rebuilt === null || !isBelievable(rebuilt)) {
    return { loop, evidence: "outward", integral: lostAngle(loop), unit: "rad", explained: null };
  }
  const unit = output === null ? "1" : channelOf(flight, `rate.${axis}.output`)!.unit;
  return { loop, evidence: "rebuilt", integral: rebuilt.integral, unit, explained: rebuilt.explained };
}

/** The integral term of one axis, logged or rebuilt; null where the loop is not logged. */
export function integralTerm(flight: Flight, axis: Axis): IntegralTerm | null {
  const loop = axisLoops(flight).find((one) => one.axis === axis);
  return loop === undefined ? null : termOf(flight, loop, flight.aircraft?.integratorLimit[axis] ?? null);
}

function windupsOf({ loop, evidence, integral }: IntegralTerm, limit: number | null): Windup[] {
  const { output } = loop;
  const calm = calmError(loop);
  const outputScale = output === null ? null : quantile(output.map(Math.abs), 0.999);
  const signals = { ...loop, integral };
  switch (evidence) {
    case "logged":
      return findWindups(signals, {
        limit,
        scale: limit ?? outputScale ?? quantile(integral.map(Math.abs), 0.999),
        calm,
      });
    case "rebuilt": {
      if (outputScale === null) return findWindups(signals, { limit: null, scale: USUAL_LIMIT_OF_HOVER, calm });
      return findWindups(signals, { limit, scale: outputScale, calm, full: REBUILT_FULL });
    }
    case "outward":
      return findWindups(signals, { limit: null, scale: LOST_ANGLE, calm: 3 * calm }).filter(
        ({ overshoot }) => overshoot >= OUTWARD_OVERSHOOT,
      );
  }
}

const confidenceOf = ({ evidence, explained }: IntegralTerm) =>
  evidence === "logged" ? 0.95 : evidence === "rebuilt" ? 0.5 + 0.4 * explained! : 0.5;

/**
 * A loop acts against its error, and an integral term that takes longer than this to say as much as the proportional one
 * cannot wind up in a manoeuvre (common practice: a second or so).
 */
const LONGEST_INTEGRAL_TIME = 20;

function isBelievable({ explained, gains: { proportional, integral } }: RebuiltIntegrator): boolean {
  const acts = proportional.low > 0 && integral.low > 0;
  return explained >= LEAST_EXPLAINED && acts && integral.value * LONGEST_INTEGRAL_TIME >= proportional.value;
}

/** rad/s: half the rms of the error while nothing is at a limit. */
function calmError({ error, isLimited }: AxisLoop): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < error.length; i++) {
    if (isLimited[i] === 1) continue;
    sum += error[i]! ** 2;
    count++;
  }
  return Math.max(LEAST_ERROR, count === 0 ? 0 : 0.5 * Math.sqrt(sum / count));
}

/** rad by which the axis fell behind its set point while something was at a limit. */
function lostAngle({ time, error, isLimited, stretches }: AxisLoop): Float64Array {
  const lost = new Float64Array(time.length);
  for (const { from, to } of stretches) {
    for (let i = from + 1; i < to; i++) {
      lost[i] = lost[i - 1]! + (isLimited[i] === 1 ? error[i]! * (time[i]! - time[i - 1]!) : 0);
    }
  }
  return lost;
}

function overshootMeetsLimit({ time, error, isLimited }: AxisLoop, { end, direction, overshoot }: Windup): boolean {
  if (overshoot < REAL_OVERSHOOT) return false;
  let i = time.findIndex((now) => now >= end);
  for (; i >= 0 && i < time.length && time[i]! <= end + RECOVERY; i++) {
    if (isLimited[i] === 1 && direction * error[i]! < 0) return true;
  }
  return false;
}

import { AXES, type Axis } from "../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight, type Phase } from "../flight/index.ts";
import type { Span } from "../log/channel.ts";
import { rangesWithin } from "./air-time.ts";
import { beyond } from "./beyond.ts";
import { episodesOf } from "./episodes.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";
import { quantisationStep } from "./quantisation-step.ts";

/** A motor that came to its ceiling (`motor-saturation`) or rested on its floor (`motor-floor`) in the air. */
export interface MotorLimitEvidence extends EvidenceBase {
  readonly kind: "motor-saturation" | "motor-floor";
  readonly motor: number;
  /** axes that the motor turns: those it has a lever to, and yaw; all where the layout is unknown */
  readonly serves: readonly Axis[];
  /** every episode, in order */
  readonly stretches: readonly Span[];
  /** where the time at the limit was spent, most first */
  readonly where: readonly { readonly phase: Phase; readonly seconds: number }[];
  /** the limit in the unit of the command, and how it is known */
  readonly limit: { readonly command: number; readonly from: "aircraft" | "data"; readonly tolerance: number };
}

/**
 * Finds the time that each motor's command spends at its ceiling while the aircraft is in the air. A sample is at the
 * ceiling when it is within half a quantisation step of it. `share` counts samples at the limit over samples in the
 * air; an episode is a run of such samples without a gap.
 */
export const motorSaturation: Detector<MotorLimitEvidence> = limitDetector("motor-saturation");

/** The same at the armed floor (`idle` of the aircraft file). */
export const motorFloor: Detector<MotorLimitEvidence> = limitDetector("motor-floor");

/** A limit read from the data is where the command stopped, not where it had to. */
const CONFIDENCE = { aircraft: 0.99, data: 0.7 } as const;

function limitDetector(kind: MotorLimitEvidence["kind"]): Detector<MotorLimitEvidence> {
  return {
    kind,
    missing(flight) {
      const limits = commandLimits(flight.log, flight.aircraft);
      if (limits === null) return ["motor.N.command"];
      const isKnown = limits.from === "aircraft" || (kind === "motor-saturation" && limits.topIsHeld);
      return isKnown ? [] : ["aircraft file: command"];
    },
    detect(flight) {
      return commandedMotors(flight).flatMap((motor) => detectMotor(flight, kind, motor) ?? []);
    },
  };
}

function axesServed({ aircraft }: Flight, motor: number): readonly Axis[] {
  const place = aircraft?.motors[motor - 1];
  if (place === undefined) return AXES;
  return AXES.filter((axis) => axis === "yaw" || (axis === "roll" ? place.y : place.x) !== 0);
}

function detectMotor(flight: Flight, kind: MotorLimitEvidence["kind"], motor: number): MotorLimitEvidence | null {
  const channel = channelOf(flight, `motor.${motor}.command`)!;
  const limits = commandLimits(flight.log, flight.aircraft)!;
  const tolerance = quantisationStep(channel.series.values, limits.max - limits.min) / 2;
  const [bottom, top] =
    kind === "motor-saturation"
      ? [Number.NEGATIVE_INFINITY, limits.max - tolerance]
      : [limits.idle + tolerance, Number.POSITIVE_INFINITY];
  const { time, values } = channel.series;
  const ranges = rangesWithin(time, flight.airborne);
  const { stretches, share } = episodesOf(time, ranges, 1 / channel.rate, beyond(values, bottom, top));
  if (stretches.length === 0) return null;
  const lengths = stretches.map(({ start, end }) => end - start);
  return {
    kind,
    motor,
    start: stretches[0]!.start,
    end: stretches.at(-1)!.end,
    serves: axesServed(flight, motor),
    stretches,
    where: timeInPhases(stretches, flight.phases),
    limit: { command: kind === "motor-saturation" ? limits.max : limits.idle, from: limits.from, tolerance },
    confidence: CONFIDENCE[limits.from],
    measures: {
      share: { value: share, unit: "1" },
      longest: { value: Math.max(...lengths), unit: "s" },
      episodes: { value: stretches.length, unit: "1" },
    },
  };
}

/** Seconds of some stretches in each phase that holds any, most first. */
export function timeInPhases(stretches: readonly Span[], phases: readonly Phase[]) {
  return phases
    .map((phase) => ({
      phase,
      seconds: stretches.reduce(
        (sum, { start, end }) => sum + Math.max(0, Math.min(end, phase.end) - Math.max(start, phase.start)),
        0,
      ),
    }))
    .filter(({ seconds }) => seconds > 0)
    .sort((a, b) => b.seconds - a.seconds);
}

import { AXES, type Axis } from "../../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight, onceAFlight, type Phase } from "../../flight/index.ts";
import type { Span } from "../../log/channel.ts";
import type { Detector, Estimate, EvidenceBase } from "../evidence.ts";
import { angleAtPeak } from "./angle-at-peak.ts";
import { axisMotion } from "./axis-motion.ts";
import { type Driver, type DriverDecision, decideDriver } from "./decide-driver.ts";
import { type EnergyFlow, energyFlow } from "./energy-flow.ts";
import type { Trend } from "./envelope-trend.ts";
import { calmRatiosFor, regularityOf } from "./false-alarms.ts";
import { absoluteLevel, findCandidates, LOWEST } from "./find-candidates.ts";
import { groupEvents } from "./group-events.ts";
import { isOscillation, oscillationConfidence } from "./is-oscillation.ts";
import { joinModes } from "./join-modes.ts";
import { type ModeMeasures, modeMeasures } from "./mode-measures.ts";
import { commandedMoment } from "./motor-moment.ts";
import { type PrecedingEvent, phaseAt, precedingEvent } from "./preceding-event.ts";
import { type RotorAlias, rotorAlias } from "./rotor-alias.ts";
import { relationTo, secondWitnesses, type Witness } from "./second-witness.ts";
import { isStepAnswer } from "./step-answer.ts";
import { toneMap } from "./tone-map.ts";

/** An oscillation of one axis: when, how fast, how large, whether it grew, and what drove it. */
export interface OscillationEvidence extends EvidenceBase {
  readonly kind: "oscillation";
  readonly axis: Axis;
  readonly driver: Driver;
  readonly trend: Trend;
  /** findings of one event share it */
  readonly group: string;
  /** whether this axis had it first */
  readonly leads: boolean;
  /** other channels that show it */
  readonly witnesses: readonly Witness[];
  readonly decision: DriverDecision;
  /** whether a motor was at a limit while it lasted */
  readonly atLimit: boolean;
  /** rad/s in-band rms of the flight's calm; null where the log holds none */
  readonly calm: number | null;
  /** a wave so fast for its sampling that it may be the image of a faster one */
  readonly mayBeAlias: boolean;
  /** a rotor line that the log's rate folds to this frequency; null where none does, or rotor speeds are not logged */
  readonly rotorAlias: RotorAlias | null;
  /** what happened last before it began, and in which phase it began; null where nothing did, or the phase is unknown */
  readonly after: PrecedingEvent | null;
  readonly phase: Phase | null;
  /** multiples of its frequency, and other frequencies in Hz, at which the axis oscillated at the same time */
  readonly harmonics: readonly number[];
  readonly otherModes: readonly number[];
  /** 0..1, see `periodicity` */
  readonly periodicity: number;
  /** what the decision rests on, see `regularityOf` */
  readonly regularity: number;
  /** net work of the commanded moment over time; null where its size is unknown */
  readonly flow: EnergyFlow | null;
  /** 1/s and s: where the growth was measured, for the chart */
  readonly fit: { readonly start: number; readonly end: number; readonly amplitude: number };
}

/** Peak rate (20 deg/s) and angle (3 deg) that are an oscillation worth a caution whatever the calm: the alert table's. */
const PEAK_RATE = 0.35;
const PEAK_ANGLE = 0.0524;

/**
 * Looks, axis by axis, for motion of one frequency that persists, and measures it.
 *
 * Tones are followed over time in frames of four cycles (`toneMap`); a run above three times the flight's own calm, or
 * near the absolute level, is measured in its band (`modeMeasures`) and kept if it repeats itself as a wave does
 * (`isOscillation`). The largest of an axis is reported.
 */
export const oscillation: Detector<OscillationEvidence> = {
  kind: "oscillation",
  missing(flight) {
    const isThere = AXES.some(
      (axis) =>
        channelOf(flight, `rate.${axis}.measured`) !== undefined ||
        (axis !== "yaw" && channelOf(flight, `attitude.${axis}.measured`) !== undefined),
    );
    return isThere ? [] : ["rate.AXIS.measured"];
  },
  detect(flight) {
    return [...detectAll(flight)];
  },
};

interface Detected {
  readonly evidence: Omit<OscillationEvidence, "group" | "leads">;
  readonly mode: ModeMeasures;
}

const detectAll = onceAFlight((flight: Flight): OscillationEvidence[] => {
  const found = AXES.flatMap((axis) => detectAxis(flight, axis) ?? []);
  const grouped = groupEvents(found.map(({ evidence }) => evidence));
  return grouped.map((one) => {
    const leader = grouped.find(({ group, leads }) => leads && group === one.group)!;
    const mode = found.find(({ evidence }) => evidence.axis === one.axis)!.mode;
    const behind = leader === one ? null : relationTo(flight, `rate.${leader.axis}.measured`, mode);
    if (behind === null || behind.coherence < TOGETHER) return one;
    const { phase: value, reach } = behind;
    return {
      ...one,
      measures: { ...one.measures, axisLag: { value, unit: "rad", low: value - reach, high: value + reach } },
    };
  });
});

/** Share of power in common from which the phase between two axes says something. */
const TOGETHER = 0.5;

function detectAxis(flight: Flight, axis: Axis): Detected | null {
  const motion = axisMotion(flight, axis);
  if (motion === null) return null;
  const { pieces, rate, highest, isDerived, channel } = motion;
  const absolute = (frequency: number) => absoluteLevel(frequency, PEAK_RATE, PEAK_ANGLE);
  const tracks = toneMap(pieces, rate, LOWEST, highest);
  const modes = calmRatiosFor(flight.falseAlarms)
    .flatMap((calmRatio) => findCandidates(tracks, absolute, calmRatio))
    .map((candidate) => modeMeasures(pieces[candidate.piece]!, candidate))
    .filter((mode) => mode !== null)
    .filter((mode) => isOscillation(mode, flight.falseAlarms) && !isStepAnswer(flight, axis, mode))
    .sort((a, b) => b.amplitude / absolute(b.frequency.value) - a.amplitude / absolute(a.frequency.value));
  if (modes.length === 0) return null;
  const { main: mode, first, changing, end, cycles, stretches } = joinModes(modes, modes[0]!);
  const moment = commandedMoment(flight, axis, mode);
  const witnesses = secondWitnesses(flight, axis, mode, isDerived, moment);
  const decision = decideDriver(flight, axis, mode, moment);
  const angle = angleAtPeak(flight, axis, mode);
  const { frequency, amplitude } = mode;
  const { trend } = changing;
  const energy: Record<string, Estimate> = {};
  if (decision.drive?.energy) energy.energy = decision.drive.energy;
  if (decision.drive?.unexplained) energy.unexplained = decision.drive.unexplained;
  if (decision.driver === "coupled" && decision.pull) energy.sidePull = decision.pull.size;
  const fitted = decision.drive?.fitted;
  if (fitted) {
    if (fitted.effectiveness) energy.effectiveness = fitted.effectiveness;
    energy.motorLag = fitted.lag;
    energy.motorDelay = fitted.delay;
  }
  const alias = rotorAlias(flight, channel.rate, frequency, mode);
  if (alias) energy.rotorLine = { value: alias.frequency, unit: "Hz" };
  const evidence = {
    kind: "oscillation" as const,
    axis,
    driver: decision.driver,
    trend: trend.trend,
    start: first.start,
    end,
    ...(stretches.length > 1 && { stretches }),
    confidence: oscillationConfidence(mode, witnesses.length),
    witnesses,
    decision,
    atLimit: isAtLimit(flight, { start: first.start, end }),
    calm: mode.calm,
    mayBeAlias: frequency.value > 0.3 * channel.rate,
    rotorAlias: alias,
    after: precedingEvent(flight, axis, first.onset, frequency.value),
    phase: phaseAt(flight, first.start),
    ...otherFrequencies(modes, mode),
    periodicity: mode.periodicity,
    regularity: regularityOf(mode),
    flow: moment && decision.drive && energyFlow(mode, moment, decision.drive),
    fit: {
      start: changing.windowStart + trend.from / changing.rate,
      end: changing.windowStart + trend.to / changing.rate,
      amplitude: changing.band.envelope[trend.from]!,
    },
    measures: {
      frequency,
      amplitude: { value: amplitude, unit: "rad/s" },
      angle: { value: angle, unit: "rad" },
      growth: trend.growth,
      damping: trend.damping,
      cycles: { value: Math.round(cycles * 10) / 10, unit: "1" },
      onset: first.onset,
      ...energy,
    },
  };
  return { evidence, mode };
}

/** Share by which a frequency may miss a multiple and still be a harmonic. */
const HARMONIC_SLACK = 0.05;
const HARMONICS = [2, 3, 4, 5];

/** What else of an axis oscillated while its main mode did: multiples of it, and other modes. */
function otherFrequencies(modes: readonly ModeMeasures[], main: ModeMeasures) {
  const harmonics = new Set<number>();
  const otherModes: number[] = [];
  for (const { frequency, start, end } of modes) {
    const ratio = frequency.value / main.frequency.value;
    if (start >= main.end || end <= main.start || (ratio < 1.2 && ratio > 1 / 1.2)) continue;
    const multiple = HARMONICS.find((n) => Math.abs(ratio / n - 1) < HARMONIC_SLACK);
    if (multiple !== undefined) harmonics.add(multiple);
    else if (otherModes.every((other) => Math.abs(other / frequency.value - 1) > 0.2)) otherModes.push(frequency.value);
  }
  return { harmonics: [...harmonics].sort((a, b) => a - b), otherModes: otherModes.sort((a, b) => a - b) };
}

function isAtLimit(flight: Flight, { start, end }: Span): boolean {
  const limits = commandLimits(flight.log, flight.aircraft);
  if (limits === null || limits.from !== "aircraft") return false;
  return commandedMotors(flight).some((motor) => {
    const { time, values } = channelOf(flight, `motor.${motor}.command`)!.series;
    return values.some(
      (value, i) => time[i]! >= start && time[i]! <= end && (value >= limits.max || value <= limits.idle),
    );
  });
}

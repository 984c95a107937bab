import { AXES, type Axis } from "../../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight } from "../../flight/index.ts";
import type { Span } from "../../log/channel.ts";
import type { Detector, Estimate, EvidenceBase } from "../evidence.ts";
import { axisMotion } from "./axis-motion.ts";
import { bandMotion } from "./band-motion.ts";
import { type Driver, type DriverDecision, decideDriver } from "./decide-driver.ts";
import type { Trend } from "./envelope-trend.ts";
import { absoluteLevel, findCandidates } from "./find-candidates.ts";
import { groupEvents } from "./group-events.ts";
import { isOscillation, oscillationConfidence } from "./is-oscillation.ts";
import { joinModes } from "./join-modes.ts";
import { type ModeMeasures, modeMeasures } from "./mode-measures.ts";
import { commandedMoment } from "./motor-moment.ts";
import { onWindow } from "./on-window.ts";
import { secondWitnesses, type Witness } from "./second-witness.ts";

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
  /** 0..1, see `periodicity` */
  readonly periodicity: number;
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
    const found = known.get(flight) ?? groupEvents(AXES.flatMap((axis) => detectAxis(flight, axis) ?? []));
    known.set(flight, found);
    return [...found];
  },
};

const known = new WeakMap<Flight, readonly OscillationEvidence[]>();

function detectAxis(flight: Flight, axis: Axis): Omit<OscillationEvidence, "group" | "leads"> | null {
  const motion = axisMotion(flight, axis);
  if (motion === null) return null;
  const { pieces, rate, highest, isDerived, channel } = motion;
  const absolute = (frequency: number) => absoluteLevel(frequency, PEAK_RATE, PEAK_ANGLE);
  const modes = findCandidates(pieces, rate, highest, absolute)
    .map((candidate) => modeMeasures(pieces[candidate.piece]!, candidate))
    .filter((mode) => mode !== null)
    .filter(isOscillation)
    .sort((a, b) => b.amplitude / absolute(b.frequency.value) - a.amplitude / absolute(a.frequency.value));
  if (modes.length === 0) return null;
  const { main: mode, first, changing, end, cycles, stretches } = joinModes(modes, modes[0]!);
  const moment = commandedMoment(flight, axis, mode);
  const witnesses = secondWitnesses(flight, axis, mode, isDerived, moment);
  const decision = decideDriver(flight, axis, mode, moment);
  const angle = peakAngle(flight, axis, mode);
  const { frequency, amplitude } = mode;
  const { trend } = changing;
  const energy: Record<string, Estimate> = {};
  if (decision.drive?.energy) energy.energy = decision.drive.energy;
  if (decision.drive?.unexplained) energy.unexplained = decision.drive.unexplained;
  return {
    kind: "oscillation",
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
    calm: mode.candidate.calm,
    mayBeAlias: frequency.value > 0.3 * channel.rate,
    periodicity: mode.periodicity,
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
}

/** rad, largest swing of the attitude in the band; from the rate where the attitude is not logged. */
function peakAngle(flight: Flight, axis: Axis, mode: ModeMeasures): number {
  const { windowStart, rate, band, frequency, from, to, amplitude } = mode;
  const channel = axis === "yaw" ? undefined : channelOf(flight, `attitude.${axis}.measured`);
  const values = channel && onWindow(channel, windowStart, rate, band.re.length);
  if (!values) return amplitude / (2 * Math.PI * frequency.value);
  const { envelope } = bandMotion(values, rate, frequency.value);
  return envelope.subarray(from, to).reduce((most, value) => Math.max(most, value), 0);
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

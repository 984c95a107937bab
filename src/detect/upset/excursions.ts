import { AXES, type Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight, onceAFlight } from "../../flight/index.ts";
import type { Series, Span } from "../../log/channel.ts";
import { quantile } from "../../signal/index.ts";
import { rangesWithin, valuesWithin } from "../air-time.ts";
import { largestSize } from "../largest-size.ts";
import { thinned } from "../thinned.ts";
import { AFTER_SETPOINT, type AskedRate, askedRate } from "./asked-rate.ts";
import { type SetPointJump, setPointJumps } from "./set-point-jumps.ts";

/** A stretch in which an axis turned far faster than the flight usually does and than it was asked to. */
export interface Excursion extends Span {
  readonly axis: Axis;
  /** rad/s and rad, largest sizes */
  readonly rate: number;
  readonly angle: number;
  /** rad/s from which turning counted */
  readonly threshold: number;
  /** largest rate of the second half over the largest of all */
  readonly fading: number;
  /** s until the axis was calm again; null where the data ends, or the flight does, before that */
  readonly recovery: number | null;
  /** the jump of the attitude set point, more than an aircraft can follow, just before; null where there was none */
  readonly jump: SetPointJump | null;
}

/** rad/s (86 deg/s); gusts and ordinary manoeuvres turn a multirotor less than that (common practice) */
const LEAST_RATE = 1.5;
/** Times the rate that this flight stays below for nine tenths of its air time. */
const USUAL_FACTOR = 4;
/** s after a jump of the set point that are not usual: in a short flight they would be a good part of the fastest tenth */
const UNUSUAL = 2;
/** s by which the stamps of a set point and of what it made may differ */
const BEFORE_SETPOINT = 0.05;
/** A motion up to this factor above what was asked is an overshoot of what was asked. */
const OVERSHOOT = 2;
/** s of calm that end an upset */
export const CALM = 0.5;
/** rad by which the attitude may still be off once it is recovered (15 deg) */
const CALM_ERROR = 0.26;
/** s at take-off and landing in which the ground turns the aircraft */
const GROUND_TIME = 0.5;
/** rad (45 deg): no ground contact of a landing turns an aircraft that far */
const TURNED_OVER = 0.785;

/** Whether control was lost: turned over and not recovered. */
export const isLoss = ({ recovery, angle }: Excursion) => recovery === null && angle >= TURNED_OVER;

/** Whether it came at once and died away, as after a kick, or as an oscillation does not: half as fast in its second half. */
export const isKnock = ({ fading }: Excursion) => fading < FADED;

const FADED = 0.5;

const byAxis = onceAFlight((flight) => new Map(AXES.map((axis) => [axis, detectAxis(flight, axis)])));

/** The excursions of an axis, in order of time. Computed once a flight. */
export const excursionsOf = (flight: Flight, axis: Axis): Excursion[] => byAxis(flight).get(axis)!;

function detectAxis(flight: Flight, axis: Axis): Excursion[] {
  const channel = channelOf(flight, `rate.${axis}.measured`);
  if (channel === undefined) return [];
  const { time, values } = channel.series;
  const airborne = valuesWithin(channel.series, flight.airborne);
  if (airborne.length === 0) return [];
  const jumps = setPointJumps(flight, axis);
  const threshold = Math.max(LEAST_RATE, USUAL_FACTOR * usualRate(flight, channel.series, airborne, jumps));
  if (largestSize(airborne) < threshold) return [];
  const asked = askedRate(flight, axis, time, jumps);
  const found: Excursion[] = [];
  for (const { from, to } of rangesWithin(time, flight.airborne)) {
    for (let i = from; i < to; i++) {
      if (Math.abs(values[i]!) < threshold || wasAsked(time, values[i]!, asked, i)) continue;
      const one = measure(flight, axis, { time, values, asked, jumps, at: i, from, to, threshold });
      if (one.excursion !== null) found.push(one.excursion);
      i = one.next;
    }
  }
  return found;
}

/** rad/s that the axis stays below for nine tenths of its air time, jumps of the set point and what they did left out. */
function usualRate({ airborne }: Flight, series: Series, all: Float64Array, jumps: readonly SetPointJump[]): number {
  const usual = airborne.flatMap((span) => without(span, jumps));
  const own = valuesWithin(series, usual);
  return quantile(thinned(own.length < all.length / 2 ? all : own).map(Math.abs), 0.9);
}

function without({ start, end }: Span, jumps: readonly SetPointJump[]): Span[] {
  const parts: Span[] = [];
  let from = start;
  for (const { at } of jumps) {
    if (at > from) parts.push({ start: from, end: Math.min(at, end) });
    from = Math.max(from, at + UNUSUAL);
  }
  return [...parts, { start: from, end }].filter((part) => part.end > part.start);
}

function wasAsked(time: Float64Array, value: number, { rate }: AskedRate, at: number): boolean {
  let most = 0;
  for (let i = at; i >= 0 && time[at]! - time[i]! <= AFTER_SETPOINT; i--) most = Math.max(most, rate[i]!);
  for (let i = at; i < time.length && time[i]! - time[at]! <= BEFORE_SETPOINT; i++) most = Math.max(most, rate[i]!);
  return Math.abs(value) < OVERSHOOT * most;
}

interface Turning {
  readonly time: Float64Array;
  readonly values: Float64Array;
  readonly asked: AskedRate;
  readonly jumps: readonly SetPointJump[];
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly threshold: number;
}

function measure(flight: Flight, axis: Axis, { time, values, asked, jumps, at, from, to, threshold }: Turning) {
  let first = at;
  while (first > from && Math.abs(values[first - 1]!) > threshold / 4) first--;
  let [calmSince, last, peak] = [-1, to - 1, 0];
  let recovered = false;
  for (let i = at; i < to; i++) {
    peak = Math.max(peak, Math.abs(values[i]!));
    const isCalm = Math.abs(values[i]!) < threshold / 2 && !(Math.abs(asked.error?.[i] ?? 0) > CALM_ERROR);
    if (!isCalm) calmSince = -1;
    else if (calmSince === -1) calmSince = i;
    if (calmSince !== -1 && time[i]! - time[calmSince]! >= CALM) {
      [last, recovered] = [calmSince, true];
      break;
    }
  }
  const [start, end] = [time[first]!, time[last]!];
  const angle = peakAngle(flight, axis, start, end, values, time);
  const isAtGround = start - time[from]! < GROUND_TIME || time[to - 1]! - start < GROUND_TIME;
  const half = first + Math.floor((last - first) / 2);
  const late = largestSize(values.subarray(half, last));
  const excursion: Excursion = {
    axis,
    fading: late / peak,
    start,
    end,
    rate: peak,
    angle,
    threshold,
    recovery: recovered ? end - start : null,
    jump: jumps.findLast((one) => one.at <= time[at]! && start - one.at <= AFTER_SETPOINT) ?? null,
  };
  return { excursion: isAtGround && angle < TURNED_OVER ? null : excursion, next: last };
}

/** rad, largest angle from level (roll, pitch) or from where it was (yaw, or an attitude that is not logged). */
function peakAngle(
  flight: Flight,
  axis: Axis,
  start: number,
  end: number,
  rates: Float64Array,
  times: Float64Array,
): number {
  const attitude = axis === "yaw" ? undefined : channelOf(flight, `attitude.${axis}.measured`);
  if (attitude !== undefined) {
    const angles = valuesWithin(attitude.series, [{ start, end }]);
    if (angles.length > 0) return largestSize(angles);
  }
  let [turned, most] = [0, 0];
  for (let i = 1; i < times.length; i++) {
    if (times[i]! < start || times[i]! > end) continue;
    turned += rates[i]! * (times[i]! - times[i - 1]!);
    most = Math.max(most, Math.abs(turned));
  }
  return most;
}

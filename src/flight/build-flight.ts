import type { Aircraft } from "../aircraft/aircraft.ts";
import { InputError } from "../input/index.ts";
import type { Span } from "../log/channel.ts";
import { cutSeries, cutSpans } from "../log/cut-stretch.ts";
import type { Log } from "../log/log.ts";
import { findAirborne } from "./airborne.ts";
import { findPhases } from "./find-phases.ts";
import { commandedMotors, type Flight } from "./flight.ts";

export interface FlightOptions {
  /** s on the log's own clock; what lies outside is not examined */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
}

/**
 * Puts a log and an aircraft together and finds what the aircraft was doing when. Nothing after the moment in which
 * the log froze is kept, so no detector can take it for data.
 *
 * @throws InputError where motors and aircraft file do not fit, or the stretch asked for holds no data
 */
export function buildFlight(log: Log, aircraft: Aircraft | null, options: FlightOptions = {}): Flight {
  const span = examinedSpan(log, options);
  const cut = cutLog(log, span);
  if (aircraft !== null) checkMotors(log, aircraft);
  const airborne = findAirborne(cut, aircraft, span);
  return {
    log: cut,
    aircraft,
    span,
    phases: findPhases(cut, span, airborne.spans),
    airborne: airborne.spans,
    airborneBy: airborne.by,
  };
}

function examinedSpan(log: Log, { from = 0, to = Number.POSITIVE_INFINITY }: FlightOptions): Span {
  const start = Math.max(0, from);
  const end = Math.min(log.duration, to, log.frozenFrom ?? Number.POSITIVE_INFINITY);
  if (!(end > start)) {
    const range = `${start} s to ${Number.isFinite(to) ? `${to} s` : "the end"}`;
    const problem = `the stretch from ${range} holds no live data (the log runs from 0 to ${log.duration.toFixed(1)} s)`;
    throw new InputError({ file: log.file }, problem, "choose --from and --to within it");
  }
  return { start, end };
}

function cutLog(log: Log, span: Span): Log {
  if (span.start <= 0 && span.end >= log.duration) return log;
  const channels = [...log.channels].map(([name, channel]) => {
    const series = cutSeries(channel.series, span);
    const cut = { ...channel, series, gaps: cutSpans(channel.gaps, span), stuck: cutSpans(channel.stuck, span) };
    return [name, cut] as const;
  });
  return { ...log, channels: new Map(channels.filter(([, { series }]) => series.time.length > 1)) };
}

function checkMotors(log: Log, aircraft: Aircraft): void {
  const numbers = commandedMotors({ log });
  if (numbers.length === 0) return;
  const count = aircraft.motors.length;
  const beyond = numbers.find((number) => number > count);
  const absent = aircraft.motors.map((_, i) => i + 1).find((number) => !numbers.includes(number));
  if (beyond === undefined && absent === undefined) return;
  const problem =
    beyond === undefined
      ? `the aircraft has ${count} motors but the log has no motor.${absent}.command`
      : `the log has motor.${beyond}.command but the aircraft has ${count} motors`;
  throw new InputError({ file: log.file }, problem, "map every motor of the aircraft file, in its order");
}

import type { Aircraft } from "../aircraft/aircraft.ts";
import { InputError } from "../input/index.ts";
import type { Channel, Span } from "../log/channel.ts";
import { cutSeries, cutSpans } from "../log/cut-stretch.ts";
import type { Log } from "../log/log.ts";
import { findAirborne } from "./airborne.ts";
import { findPhases } from "./find-phases.ts";
import { commandedMotors, FALSE_ALARMS, type Flight } from "./flight.ts";
import { stillSetPoints } from "./still-set-points.ts";

/**
 * Puts a log and an aircraft together and finds what the aircraft was doing when. Nothing after the moment in which
 * the log froze is kept, so no detector can take it for data; nor is a set point that nobody can have asked for.
 *
 * @param falseAlarms false oscillations an hour of flight that are accepted
 * @throws InputError where motors and aircraft file do not fit, or the stretch asked for holds no data
 */
export function buildFlight(log: Log, aircraft: Aircraft | null, falseAlarms = FALSE_ALARMS): Flight {
  const span = liveSpan(log);
  const live = cutLog(log, span);
  const still = stillSetPoints(live);
  const cut = withoutChannels(live, still);
  if (aircraft !== null) checkMotors(log, aircraft);
  const airborne = findAirborne(cut, aircraft, span);
  return {
    log: cut,
    still,
    aircraft,
    span,
    phases: findPhases(cut, span, airborne.spans),
    airborne: airborne.spans,
    airborneBy: airborne.by,
    falseAlarms,
  };
}

function liveSpan({ file, stretch, frozenFrom }: Log): Span {
  const end = Math.min(stretch.end, frozenFrom ?? Number.POSITIVE_INFINITY);
  if (end > stretch.start) return { start: stretch.start, end };
  const problem = `nothing changes any more after ${frozenFrom?.toFixed(1)} s, so the stretch asked for holds no live data`;
  throw new InputError({ file }, problem, "ask for an earlier stretch");
}

function cutLog(log: Log, span: Span): Log {
  if (span.end >= log.stretch.end) return log;
  const channels = [...log.channels].map(([name, channel]) => {
    const series = cutSeries(channel.series, span);
    const cut = { ...channel, series, gaps: cutSpans(channel.gaps, span), stuck: cutSpans(channel.stuck, span) };
    return [name, cut] as const;
  });
  return { ...log, channels: new Map(channels.filter(([, { series }]) => series.time.length > 1)) };
}

function withoutChannels(log: Log, left: readonly Channel[]): Log {
  if (left.length === 0) return log;
  return { ...log, channels: new Map([...log.channels].filter(([, channel]) => !left.includes(channel))) };
}

function checkMotors(log: Log, aircraft: Aircraft): void {
  const numbers = commandedMotors({ log });
  if (numbers.length === 0) return;
  const count = aircraft.motors.length;
  const beyond = numbers.find((number) => number > count);
  const absent = aircraft.motors.map((_, i) => i + 1).find((number) => !numbers.includes(number));
  if (beyond === undefined && absent === undefined) {
    checkCommandUnit(log, aircraft, numbers);
    return;
  }
  const problem =
    beyond === undefined
      ? `the aircraft has ${count} motors but the log has no motor.${absent}.command`
      : `the log has motor.${beyond}.command but the aircraft has ${count} motors`;
  throw new InputError({ file: log.file }, problem, "map every motor of the aircraft file, in its order");
}

/** A map states the unit, so it contradicts the aircraft file; where words and numbers told it, it is a question. */
function checkCommandUnit({ file, mapping, channels }: Log, aircraft: Aircraft, numbers: readonly number[]): void {
  if (mapping.source !== "file") return;
  const { unit } = aircraft.command;
  for (const number of numbers) {
    const name = `motor.${number}.command`;
    const mapped = channels.get(name)!.unit;
    if (mapped === unit) continue;
    const place = { file: mapping.file ?? file, key: `channels.${name}.unit` };
    const problem = `is ${inYaml(mapped)}, but command.unit of the aircraft file is ${inYaml(unit)}`;
    throw new InputError(place, problem, "give both the unit of the logged numbers, with min and max in that unit");
  }
}

const inYaml = (unit: string) => (unit === "us" ? unit : `"${unit}"`);

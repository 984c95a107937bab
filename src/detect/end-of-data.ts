import { commandLimits, type Flight, motorsWith, NOTHING_TELLS } from "../flight/index.ts";
import type { Series } from "../log/channel.ts";
import type { DataQualityEvidence } from "./data-quality.ts";
import type { Estimate } from "./evidence.ts";

/** s; air time is cut to a few cells of 20 ms, so what ends nearer to the end of the data than this lasts to it */
const AT_THE_END = 0.1;
/** s before the end over which commands are averaged */
const LAST_MOMENTS = 0.2;
/** s; a height older than this is not the height at the end */
const HEIGHT_KEEPS = 1;

/**
 * Whether the data end while the aircraft is still in the air: what came after is then not known. `flown` (s) is how long
 * it had been up, `height` (m) and `mean` (share of the command range, over all motors) are given where they are known.
 * Nothing where the log froze before: that its end is missing is told already.
 */
export function endOfData(flight: Flight): DataQualityEvidence[] {
  const { log, span, airborne } = flight;
  if (log.frozenFrom !== null && log.frozenFrom <= log.stretch.end) return [];
  const isCut = log.stretch.end < log.duration;
  const common = { kind: "data-quality" as const, channel: "all", start: span.end, end: span.end, confidence: 0.99 };
  if (flight.airborneBy === NOTHING_TELLS) {
    return isCut ? [] : [{ ...common, problem: "end-untold", inAir: true, measures: {} }];
  }
  const last = airborne.at(-1);
  if (last === undefined || last.end < span.end - AT_THE_END) return [];
  const measures = {
    flown: { value: last.end - last.start, unit: "s" },
    ...heightAtEnd(flight),
    ...commandAtEnd(flight),
  };
  return [{ ...common, problem: isCut ? "stretch-ends-in-air" : "ends-in-air", inAir: true, measures }];
}

function heightAtEnd({ log, span }: Flight): Record<string, Estimate> {
  const altitude = log.channels.get("altitude")?.series;
  if (altitude === undefined || altitude.time.at(-1)! < span.end - HEIGHT_KEEPS) return {};
  return { height: { value: altitude.values.at(-1)!, unit: "m" } };
}

function commandAtEnd(flight: Flight): Record<string, Estimate> {
  const limits = commandLimits(flight.log, flight.aircraft);
  if (limits?.from !== "aircraft") return {};
  const lasts = motorsWith(flight, "command").flatMap((motor) =>
    lastMean(flight.log.channels.get(`motor.${motor}.command`)!.series, flight.span.end - LAST_MOMENTS),
  );
  if (lasts.length === 0) return {};
  const command = lasts.reduce((sum, value) => sum + value, 0) / lasts.length;
  return { mean: { value: (command - limits.min) / (limits.max - limits.min), unit: "1" } };
}

function lastMean({ time, values }: Series, from: number): number[] {
  const last = values.filter((_, i) => time[i]! >= from);
  return last.length === 0 ? [] : [last.reduce((sum, value) => sum + value, 0) / last.length];
}

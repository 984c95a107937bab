import { commandLimits, type Flight, motorsWith, NOTHING_TELLS } from "../flight/index.ts";
import { mean } from "../signal/index.ts";
import { valuesWithin } from "./air-time.ts";
import type { DataQualityEvidence, DataQualityProblem } from "./data-quality.ts";
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
 * Where the log froze before, that its end is missing is told already. A log that was cut off in the middle of a row did
 * not end by itself, wherever it ends; that takes the place of the rest.
 */
export function endOfData(flight: Flight): DataQualityEvidence[] {
  const { log, span } = flight;
  const isUntold = flight.airborneBy === NOTHING_TELLS;
  const isFrozen = log.frozenFrom !== null && log.frozenFrom <= log.stretch.end;
  const aloft = isUntold || isFrozen ? null : endAloft(flight);
  const told = (problem: DataQualityProblem, inAir: boolean, measures = aloft ?? {}): DataQualityEvidence[] => [
    {
      kind: "data-quality",
      problem,
      channel: "all",
      start: span.end,
      end: span.end,
      confidence: 0.99,
      inAir,
      measures,
    },
  ];
  if (log.stretch.end < log.duration) return aloft === null ? [] : told("stretch-ends-in-air", true);
  if (log.isCut) {
    const rows = { "rows-cut": { value: 1, unit: "1" } };
    return told("cut-row", aloft !== null || (isUntold && !isFrozen), { ...rows, ...aloft });
  }
  if (isFrozen) return [];
  if (isUntold) return told("end-untold", true);
  return aloft === null ? [] : told("ends-in-air", true);
}

/** What is known of the aircraft in the air at the end of the data; null where air time ended before. */
function endAloft(flight: Flight): Record<string, Estimate> | null {
  const last = flight.airborne.at(-1);
  if (last === undefined || last.end < flight.span.end - AT_THE_END) return null;
  return { flown: { value: last.end - last.start, unit: "s" }, ...heightAtEnd(flight), ...commandAtEnd(flight) };
}

function heightAtEnd({ log, span }: Flight): Record<string, Estimate> {
  const altitude = log.channels.get("altitude")?.series;
  if (altitude === undefined || altitude.time.at(-1)! < span.end - HEIGHT_KEEPS) return {};
  return { height: { value: altitude.values.at(-1)!, unit: "m" } };
}

function commandAtEnd(flight: Flight): Record<string, Estimate> {
  const limits = commandLimits(flight.log, flight.aircraft);
  if (limits?.from !== "aircraft") return {};
  const lastMoments = [{ start: flight.span.end - LAST_MOMENTS, end: Number.POSITIVE_INFINITY }];
  const lasts = motorsWith(flight, "command")
    .map((motor) => valuesWithin(flight.log.channels.get(`motor.${motor}.command`)!.series, lastMoments))
    .filter(({ length }) => length > 0)
    .map(mean);
  if (lasts.length === 0) return {};
  return { mean: { value: (mean(lasts) - limits.min) / (limits.max - limits.min), unit: "1" } };
}

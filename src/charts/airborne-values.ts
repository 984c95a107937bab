import type { Flight } from "../flight/flight.ts";
import type { Channel } from "../log/channel.ts";
import { lowerBound, upperBound } from "./envelope.ts";

/** The values that a channel took in the air, sorted from least to greatest. */
export function airborneValues(flight: Flight, channel: Channel): Float64Array {
  const parts = flight.airborne.map(({ start, end }) =>
    channel.series.values.subarray(lowerBound(channel.series.time, start), upperBound(channel.series.time, end)),
  );
  const values = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    values.set(part, at);
    at += part.length;
  }
  return values.sort();
}

/** The value below which the share `p` of sorted values lies, between neighbours by straight line (Hyndman-Fan type 7). */
export function sortedQuantile(sorted: Float64Array, p: number): number {
  const place = p * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below] ?? Number.NaN;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] ?? low;
  return low + (place - below) * (high - low);
}

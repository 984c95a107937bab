import type { Flight } from "../flight/flight.ts";
import type { Channel } from "../log/channel.ts";
import { lowerBound, upperBound } from "./envelope.ts";

/** The values that a channel took in the air, in order of time. */
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
  return values;
}

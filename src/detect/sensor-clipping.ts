import { AXES } from "../aircraft/index.ts";
import { channelOf, type Flight } from "../flight/index.ts";
import type { Channel, Span } from "../log/channel.ts";
import { rangesWithin } from "./air-time.ts";
import { episodesOf, longestOf } from "./episodes.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";

/** A rate or an acceleration that sat at the end of its sensor's range. */
export interface SensorClippingEvidence extends EvidenceBase {
  readonly kind: "sensor-clipping";
  readonly channel: string;
  readonly unit: string;
  readonly stretches: readonly Span[];
}

/** Samples in a row at exactly the extreme value: motion never holds its own peak for so long. */
const PLATEAU = 3;
/** Plateaus that only a range explains: one may be chance, a repeated sample or a stuck one. */
const FEWEST_PLATEAUS = 2;
/** An extreme this near to the middle of the motion, in its standard deviations, is not the end of a range. */
const LEAST_REACH = 2;

/**
 * Finds body rates and accelerations that are cut off: the largest (or smallest) value of the flight is held for three
 * samples or more, more than once, while the motion carries on. A signal that is free repeats its extreme value only
 * by chance; one that is cut off does so every time.
 */
export const sensorClipping: Detector<SensorClippingEvidence> = {
  kind: "sensor-clipping",
  missing(flight) {
    return channelsOf(flight).length > 0 ? [] : ["rate.AXIS.measured", "acceleration.x"];
  },
  detect(flight) {
    return channelsOf(flight).flatMap((channel) => examine(flight, channel) ?? []);
  },
};

function channelsOf(flight: Flight): Channel[] {
  const names = [
    ...AXES.map((axis) => `rate.${axis}.measured`),
    ...["x", "y", "z"].map((way) => `acceleration.${way}`),
  ];
  return names.flatMap((name) => channelOf(flight, name) ?? []);
}

function examine(flight: Flight, channel: Channel): SensorClippingEvidence | null {
  const { time, values } = channel.series;
  const ranges = rangesWithin(time, flight.airborne).filter(({ from, to }) => to > from);
  let [least, most, sum, squares, count] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, 0, 0];
  for (const { from, to } of ranges) {
    for (let i = from; i < to; i++) {
      const value = values[i]!;
      if (value < least) least = value;
      if (value > most) most = value;
      sum += value;
      squares += value * value;
      count++;
    }
  }
  if (count < 2 * PLATEAU || !(most > least)) return null;
  const middle = sum / count;
  const deviation = Math.sqrt(Math.max(0, squares / count - middle * middle));
  const ends = [most, least].filter((end) => Math.abs(end - middle) >= LEAST_REACH * deviation);
  const clipped = ends.filter((end) => plateausAt(values, ranges, end) >= FEWEST_PLATEAUS);
  if (clipped.length === 0) return null;
  const { stretches, share } = episodesOf(time, ranges, 1 / channel.rate, (i) => clipped.includes(values[i]!));
  const limit = Math.max(...clipped.map(Math.abs));
  return {
    kind: "sensor-clipping",
    channel: channel.name,
    unit: channel.unit,
    start: stretches[0]!.start,
    end: stretches.at(-1)!.end,
    stretches,
    // A range has the same end on both sides.
    confidence: clipped.length === 2 && Math.abs(clipped[0]! + clipped[1]!) < 0.01 * limit ? 0.99 : 0.9,
    measures: {
      share: { value: share, unit: "1" },
      limit: { value: limit, unit: channel.unit },
      longest: { value: longestOf(stretches), unit: "s" },
    },
  };
}

function plateausAt(values: Float64Array, ranges: readonly { from: number; to: number }[], end: number): number {
  let plateaus = 0;
  for (const { from, to } of ranges) {
    let run = 0;
    for (let i = from; i < to; i++) {
      run = values[i] === end ? run + 1 : 0;
      if (run === PLATEAU) plateaus++;
    }
  }
  return plateaus;
}

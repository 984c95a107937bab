import { AXES } from "../aircraft/index.ts";
import { channelOf, type Flight } from "../flight/index.ts";
import type { Channel, Span } from "../log/channel.ts";
import { endsOf, mean, standardDeviation } from "../signal/index.ts";
import { type IndexRange, rangesWithin, valuesWithin } from "./air-time.ts";
import { beyond } from "./beyond.ts";
import { episodesOf, longestOf } from "./episodes.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";

/** A rate or an acceleration that sat at the end of its sensor's range. */
export interface SensorClippingEvidence extends EvidenceBase {
  readonly kind: "sensor-clipping";
  readonly channel: string;
  readonly unit: string;
  readonly stretches: readonly Span[];
}

/** Samples in a row at one and the same value: motion never holds its own peak for so long. */
const PLATEAU = 3;
/** Plateaus at one value that only a range explains: one may be chance, a repeated sample or a stuck one. */
const FEWEST_PLATEAUS = 2;
/** Share of the way from the middle to the extreme beyond which a plateau can be an end: a low-pass overshoots a little. */
const NEAR_EXTREME = 0.85;
/** Share of all samples out there that lie on the plateau: coarse rounding spreads them over several values. */
const MOST_OF_THEM = 0.5;
/** Standard deviations from the middle: a signal that does nothing but sit at its two ends is one away from it. */
const LEAST_REACH = 0.9;

/**
 * Finds body rates and accelerations that are cut off: out near the largest (or smallest) value of the flight one and
 * the same value is held for three samples or more, again and again, and most samples out there lie on it. A free
 * signal turns round at a value that is never the same.
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
  const flown = valuesWithin(channel.series, flight.airborne);
  const { least, most } = endsOf(flown);
  if (flown.length < 2 * PLATEAU || !(most > least)) return null;
  const middle = mean(flown);
  const deviation = standardDeviation(flown);
  const clipped = [most, least]
    .filter((extreme) => Math.abs(extreme - middle) >= LEAST_REACH * deviation)
    .flatMap((extreme) => endOfRange(values, ranges, middle, extreme) ?? []);
  if (clipped.length === 0) return null;
  const isClipped = Uint8Array.from(values, (value) => (clipped.includes(value) ? 1 : 0));
  const { stretches, share } = episodesOf(time, ranges, 1 / channel.rate, isClipped);
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

/** The value at which one side of a signal is cut off; null where it is free. */
function endOfRange(
  values: Float64Array,
  ranges: readonly IndexRange[],
  middle: number,
  extreme: number,
): number | null {
  const near = middle + NEAR_EXTREME * (extreme - middle);
  const isOut =
    extreme > middle ? beyond(values, Number.NEGATIVE_INFINITY, near) : beyond(values, near, Number.POSITIVE_INFINITY);
  const plateaus = new Map<number, { runs: number; samples: number }>();
  let out = 0;
  for (const { from, to } of ranges) {
    let run = 0;
    for (let i = isOut.indexOf(1, from); i !== -1 && i < to; i = isOut.indexOf(1, i + 1)) {
      const value = values[i]!;
      run = i > from && value === values[i - 1] ? run + 1 : 1;
      out++;
      const known = plateaus.get(value) ?? { runs: 0, samples: 0 };
      known.samples++;
      if (run === PLATEAU) known.runs++;
      plateaus.set(value, known);
    }
  }
  const [best] = [...plateaus]
    .filter(([, { runs }]) => runs >= FEWEST_PLATEAUS)
    .sort((a, b) => b[1].samples - a[1].samples);
  return best !== undefined && best[1].samples >= MOST_OF_THEM * out ? best[0] : null;
}

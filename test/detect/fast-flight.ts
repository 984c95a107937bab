import type { Flight } from "../../src/flight/index.ts";
import type { Channel } from "../../src/log/channel.ts";
import { samplingOf } from "../../src/log/clock/sampling.ts";
import { median } from "../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../src/simulate/index.ts";
import { simulatedFlight } from "./simulated-flight.ts";

/** What a channel holds at a time of a fast log; `hover` is the motors' usual command. */
export type ValueAt = (time: number, hover: number) => number;

const hovering = simulatedFlight({
  name: "test",
  seed: 3,
  aircraft: BUILT_IN_AIRCRAFT["small-quad"]!,
  mission: [
    { do: "aloft", height: 40 },
    { do: "hover", seconds: 20 },
  ],
}).flight;

/** A hover of 20 s in which some channels are made by hand on given stamps, and no others are logged. */
export function fastFlight(time: Float64Array, values: Readonly<Record<string, ValueAt>>): Flight {
  const { rate, gaps, longestGap } = samplingOf(time);
  const channels = new Map<string, Channel>();
  for (const [name, at] of Object.entries(values)) {
    const like = hovering.log.channels.get(name)!;
    const hover = median(like.series.values);
    const series = { time, values: time.map((now) => at(now, hover)) };
    channels.set(name, { ...like, series, rate, gaps, longestGap });
  }
  return { ...hovering, log: { ...hovering.log, channels } };
}

/** 20 s of even stamps. */
export const evenly = (rate: number): Float64Array => Float64Array.from({ length: 20 * rate }, (_, k) => k / rate);

import type { Channel, Span } from "./channel.ts";
import { cutSeries } from "./cut-stretch.ts";
import { resample, type Uniform } from "./resample.ts";

/** A channel within a span on a steady clock, cut at its gaps; at its own rate where none is given. */
export function uniformPieces(channel: Channel, span: Span, rate = channel.rate): Uniform[] {
  const series = cutSeries(channel.series, span);
  return series.time.length < 2 ? [] : resample(series, rate, channel.gaps);
}

import type { Channel, Series, Span } from "../log/channel.ts";
import { firstAtOrAfter } from "../log/clock/first-at-or-after.ts";
import { stretchesOf } from "../log/resample.ts";

/** A half-open range of sample indices. */
export interface IndexRange {
  readonly from: number;
  readonly to: number;
}

/** Sample ranges of a series that lie in the spans; a sample on a span's end counts to it. */
export function rangesWithin(time: Float64Array, spans: readonly Span[]): IndexRange[] {
  return spans
    .map(({ start, end }) => {
      const from = firstAtOrAfter(time, start);
      let to = firstAtOrAfter(time, end);
      if (to < time.length && time[to] === end) to++;
      return { from, to };
    })
    .filter(({ from, to }) => to > from);
}

/** Sample ranges of a channel that lie in the spans, cut at its gaps. */
export function unbrokenRanges({ series, gaps }: Channel, spans: readonly Span[]): IndexRange[] {
  const within = rangesWithin(series.time, spans);
  return stretchesOf(series, gaps).flatMap((stretch) =>
    within
      .map(({ from, to }) => ({ from: Math.max(from, stretch.from), to: Math.min(to, stretch.to) }))
      .filter(({ from, to }) => to > from),
  );
}

/** The part of a series that lies in a span; a view: read, never write. */
export function seriesWithin({ time, values }: Series, span: Span): Series {
  return { time: valuesWithin({ time, values: time }, [span]), values: valuesWithin({ time, values }, [span]) };
}

/** The values of a series that lie in the spans, joined; a view of the series where they are one piece: read, never write. */
export function valuesWithin({ time, values }: Series, spans: readonly Span[]): Float64Array {
  const ranges = rangesWithin(time, spans);
  if (ranges.length === 1) return values.subarray(ranges[0]!.from, ranges[0]!.to);
  const joined = new Float64Array(ranges.reduce((count, { from, to }) => count + to - from, 0));
  let at = 0;
  for (const { from, to } of ranges) {
    joined.set(values.subarray(from, to), at);
    at += to - from;
  }
  return joined;
}

import type { Series, Span } from "./channel.ts";
import { firstAtOrAfter } from "./clock/first-at-or-after.ts";

const cuts = new WeakMap<Float64Array, Map<string, Float64Array>>();

/**
 * The samples of a series within a span, both ends included: views, to be read and never written. Series that share a time array still do when cut alike;
 * one that lies within the span comes back as it is.
 */
export function cutSeries(series: Series, span: Span): Series {
  const from = firstAtOrAfter(series.time, span.start);
  let to = firstAtOrAfter(series.time, span.end);
  while (to < series.time.length && series.time[to]! <= span.end) to++;
  if (from === 0 && to === series.time.length) return series;
  const known = cuts.get(series.time) ?? new Map<string, Float64Array>();
  cuts.set(series.time, known);
  const time = known.get(`${from}-${to}`) ?? series.time.subarray(from, to);
  known.set(`${from}-${to}`, time);
  return { time, values: series.values.subarray(from, to) };
}

/** Spans as far as they lie within another; those that only touch it fall out. */
export function cutSpans(spans: readonly Span[], within: Span): Span[] {
  return spans
    .map(({ start, end }) => ({ start: Math.max(start, within.start), end: Math.min(end, within.end) }))
    .filter(({ start, end }) => end > start);
}

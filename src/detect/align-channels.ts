import type { Channel, Series, Span } from "../log/channel.ts";
import { type IndexRange, rangesWithin } from "./air-time.ts";

/** Several channels on the times of the first. */
export interface AlignedChannels {
  readonly time: Float64Array;
  /** one array a channel, in the order given */
  readonly values: readonly Float64Array[];
  /** half-open index ranges without a pause, in order */
  readonly stretches: readonly IndexRange[];
}

/**
 * Puts channels onto the sample times of the first one, over some spans: linear between a channel's own samples, never
 * across one of its gaps; samples in a gap of any are left out. Arrays may be views of the log's own: read, never write.
 */
export function alignChannels(channels: readonly [Channel, ...Channel[]], spans: readonly Span[]): AlignedChannels {
  const gaps = channels.flatMap((channel) => channel.gaps).sort((a, b) => a.start - b.start);
  const { time } = channels[0].series;
  const kept: Float64Array[][] = channels.map(() => []);
  const times: Float64Array[] = [];
  const stretches: IndexRange[] = [];
  let count = 0;
  const clear = without(
    spans,
    gaps,
    channels.map(({ series }) => series),
  );
  for (const { from, to } of rangesWithin(time, clear)) {
    times.push(time.subarray(from, to));
    for (const [k, { series }] of channels.entries()) {
      const isAligned = series.time === time;
      kept[k]!.push(isAligned ? series.values.subarray(from, to) : interpolated(series, time.subarray(from, to)));
    }
    stretches.push({ from: count, to: count + to - from });
    count += to - from;
  }
  return { time: joined(times, count), values: kept.map((parts) => joined(parts, count)), stretches };
}

/** The spans less the gaps, and only where every series has samples on both sides. */
function without(spans: readonly Span[], gaps: readonly Span[], others: readonly Series[]): Span[] {
  const first = Math.max(...others.map(({ time }) => time[0] ?? Number.POSITIVE_INFINITY));
  const last = Math.min(...others.map(({ time }) => time.at(-1) ?? Number.NEGATIVE_INFINITY));
  const parts: Span[] = [];
  for (const span of spans) {
    let start = Math.max(span.start, first);
    const end = Math.min(span.end, last);
    for (const gap of gaps) {
      if (gap.end <= start || gap.start >= end) continue;
      if (gap.start >= start) parts.push({ start, end: gap.start });
      start = Math.max(start, gap.end);
    }
    if (end > start) parts.push({ start, end });
  }
  return parts;
}

function interpolated({ time, values }: Series, at: Float64Array): Float64Array {
  let i = 0;
  return at.map((t) => {
    while (i < time.length - 2 && time[i + 1]! <= t) i++;
    const share = (t - time[i]!) / (time[i + 1]! - time[i]!);
    return values[i]! + share * (values[i + 1]! - values[i]!);
  });
}

function joined(parts: readonly Float64Array[], count: number): Float64Array {
  if (parts.length === 1) return parts[0]!;
  const whole = new Float64Array(count);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

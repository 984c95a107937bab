import type { Channel, Span } from "../log/channel.ts";
import { lowerBound, upperBound } from "./envelope.ts";

/** Pieces of a channel on an even clock, each free of gaps. */
export interface UniformStretches {
  readonly values: readonly Float64Array[];
  /** s, when each piece begins */
  readonly starts: readonly number[];
}

/** The channel within a span at its own rate, between samples by straight line, cut where it has gaps. */
export function uniformStretches(channel: Channel, span: Span): UniformStretches {
  const values: Float64Array[] = [];
  const starts: number[] = [];
  for (const { start, end } of clearOf(channel.gaps, span)) {
    const { time } = channel.series;
    const first = time[lowerBound(time, start)];
    const last = time[upperBound(time, end) - 1];
    if (first === undefined || last === undefined || last <= first) continue;
    values.push(interpolated(channel, first, Math.floor((last - first) * channel.rate + 1e-9) + 1));
    starts.push(first);
  }
  return { values, starts };
}

function clearOf(gaps: readonly Span[], span: Span): Span[] {
  const clear: Span[] = [];
  let from = span.start;
  for (const gap of gaps.filter(({ start, end }) => end > span.start && start < span.end)) {
    clear.push({ start: from, end: gap.start });
    from = gap.end;
  }
  return [...clear, { start: from, end: span.end }].filter(({ start, end }) => end > start);
}

function interpolated({ series: { time, values }, rate }: Channel, start: number, count: number): Float64Array {
  let after = upperBound(time, start);
  return Float64Array.from({ length: count }, (_, index) => {
    const now = start + index / rate;
    while (after < time.length - 1 && time[after]! < now) after += 1;
    const before = Math.max(0, after - 1);
    const width = time[after]! - time[before]!;
    const share = width > 0 ? Math.min(1, Math.max(0, (now - time[before]!) / width)) : 0;
    return values[before]! + share * (values[after]! - values[before]!);
  });
}

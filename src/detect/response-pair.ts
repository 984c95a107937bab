import type { Channel, Series, Span } from "../log/channel.ts";
import { rangesWithin } from "./air-time.ts";

/** A response and what was asked for, sample by sample on the response's own times. */
export interface ResponsePair {
  readonly time: Float64Array;
  readonly measured: Float64Array;
  /** the set point at those times, linear between its samples, never across one of its gaps */
  readonly setpoint: Float64Array;
  /** half-open index ranges without a pause, in order */
  readonly stretches: readonly { readonly from: number; readonly to: number }[];
}

/** Pairs a response with its set point over some spans; samples in a gap of either are left out. */
export function pairResponse(measured: Channel, setpoint: Channel, spans: readonly Span[]): ResponsePair {
  const gaps = [...measured.gaps, ...setpoint.gaps].sort((a, b) => a.start - b.start);
  const { time, values } = measured.series;
  const isAligned = time === setpoint.series.time;
  const kept = { time: [] as Float64Array[], measured: [] as Float64Array[], setpoint: [] as Float64Array[] };
  const stretches: { from: number; to: number }[] = [];
  let count = 0;
  for (const { from, to } of rangesWithin(time, without(spans, gaps, setpoint.series))) {
    const asked = isAligned
      ? setpoint.series.values.subarray(from, to)
      : interpolated(setpoint.series, time.subarray(from, to));
    kept.time.push(time.subarray(from, to));
    kept.measured.push(values.subarray(from, to));
    kept.setpoint.push(asked);
    stretches.push({ from: count, to: count + to - from });
    count += to - from;
  }
  return {
    time: joined(kept.time, count),
    measured: joined(kept.measured, count),
    setpoint: joined(kept.setpoint, count),
    stretches,
  };
}

/** The spans less the gaps, and only where the other series has samples on both sides. */
function without(spans: readonly Span[], gaps: readonly Span[], other: Series): Span[] {
  const first = other.time[0] ?? Number.POSITIVE_INFINITY;
  const last = other.time.at(-1) ?? Number.NEGATIVE_INFINITY;
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

import type { Series, Span } from "../log/channel.ts";
import { firstAtOrAfter } from "../log/clock/first-at-or-after.ts";

/** Samples picked from a series, in order of time. */
export interface Trace {
  readonly time: readonly number[];
  readonly value: readonly number[];
}

/**
 * The samples that draw the same picture as all of them: of each of `columns` equal slices of `span` the smallest and
 * the largest value, each at its own time, so that no spike is lost and a closer look still finds real samples.
 * A span with no more than two samples a column comes back whole.
 * @param series n samples; read, never written
 * @param span s, samples within it (ends included) are looked at
 * @param columns slices, at least 1
 */
export function envelope(series: Series, span: Span, columns: number): Trace {
  const first = firstAtOrAfter(series.time, span.start);
  const end = firstAtOrAfter(series.time, span.end);
  const last = series.time[end] === span.end ? end + 1 : end;
  const kept = last - first <= 2 * columns ? range(first, last) : extremes(series, first, last, span, columns);
  return {
    time: kept.map((index) => series.time[index]!),
    value: kept.map((index) => series.values[index]!),
  };
}

/** Indices of the least and greatest sample of each slice, in order of time, with the very first and last. */
function extremes({ time, values }: Series, first: number, last: number, span: Span, columns: number): number[] {
  const width = (span.end - span.start) / columns;
  const kept: number[] = [first];
  let from = first;
  for (let column = 1; column <= columns && from < last; column++) {
    const to = column === columns ? last : Math.min(last, firstAtOrAfter(time, span.start + column * width));
    let [least, greatest] = [from, from];
    let [low, high] = [values[from]!, values[from]!];
    for (let at = from; at < to; at++) {
      const value = values[at]!;
      if (value < low) {
        low = value;
        least = at;
      } else if (value > high) {
        high = value;
        greatest = at;
      }
    }
    if (to > from) kept.push(Math.min(least, greatest), Math.max(least, greatest));
    from = to;
  }
  kept.push(last - 1);
  return kept.filter((index, position) => position === 0 || index !== kept[position - 1]);
}

function range(first: number, last: number): number[] {
  return Array.from({ length: Math.max(0, last - first) }, (_, index) => first + index);
}

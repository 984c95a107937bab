import type { Series, Span } from "../log/channel.ts";

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
  const first = lowerBound(series.time, span.start);
  const last = upperBound(series.time, span.end);
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
    const to = column === columns ? last : Math.min(last, lowerBound(time, span.start + column * width));
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

/** Index of the first time not before `at`. */
export function lowerBound(time: Float64Array, at: number): number {
  return bisect(time.length, (index) => time[index]! < at);
}

/** Index of the first time after `at`. */
export function upperBound(time: Float64Array, at: number): number {
  return bisect(time.length, (index) => time[index]! <= at);
}

function bisect(length: number, isBefore: (index: number) => boolean): number {
  let low = 0;
  let high = length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (isBefore(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

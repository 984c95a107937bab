import type { Channel, Span } from "../log/channel.ts";
import { firstAtOrAfter } from "../log/clock/first-at-or-after.ts";

/** A coarse uniform clock for deciding what the aircraft was doing; cell k covers `start + k step` and the step after. */
export interface Grid {
  readonly start: number;
  /** s */
  readonly step: number;
  readonly cells: number;
}

/** The grid over a span; its last cell may be a partial one. */
export function gridOver(span: Span, step: number): Grid {
  return { start: span.start, step, cells: Math.max(1, Math.ceil((span.end - span.start) / step)) };
}

/** Time of a cell's middle, s. */
export function cellTime(grid: Grid, cell: number): number {
  return grid.start + (cell + 0.5) * grid.step;
}

/**
 * Mean of a channel's samples in each cell. A cell without samples is bridged linearly where the channel has no gap
 * there (it is sampled slower than the grid), and NaN where it has.
 *
 * @returns `grid.cells` values in the channel's unit
 */
export function onGrid(channel: Channel, grid: Grid, transform?: (value: number) => number): Float64Array {
  const { values } = channel.series;
  const starts = startsOf(channel.series.time, grid);
  const means = new Float64Array(grid.cells);
  for (let cell = 0; cell < grid.cells; cell++) {
    const end = starts[cell + 1]!;
    let sum = 0;
    for (let i = starts[cell]!; i < end; i++) sum += transform === undefined ? values[i]! : transform(values[i]!);
    means[cell] = sum / (end - starts[cell]!);
  }
  return bridged(means, grid, channel.gaps);
}

const known = new WeakMap<Float64Array, { readonly grid: Grid; readonly starts: Int32Array }>();

/** Index of the first sample of each cell, and of the first one beyond the last. Channels of a table share their times. */
function startsOf(time: Float64Array, grid: Grid): Int32Array {
  const last = known.get(time);
  if (
    last !== undefined &&
    last.grid.start === grid.start &&
    last.grid.step === grid.step &&
    last.grid.cells === grid.cells
  )
    return last.starts;
  const starts = new Int32Array(grid.cells + 1);
  let i = firstAtOrAfter(time, grid.start);
  for (let cell = 0; cell < grid.cells; cell++) {
    starts[cell] = i;
    const isLast = cell === grid.cells - 1;
    // A sample on the very end of the span counts to its last cell.
    while (i < time.length && Math.floor((time[i]! - grid.start) / grid.step) <= (isLast ? grid.cells : cell)) i++;
  }
  starts[grid.cells] = i;
  known.set(time, { grid, starts });
  return starts;
}

function bridged(values: Float64Array, grid: Grid, gaps: readonly Span[]): Float64Array {
  const result = values.slice();
  let last = -1;
  for (let cell = 0; cell < values.length; cell++) {
    if (Number.isNaN(values[cell]!)) continue;
    if (last >= 0 && cell > last + 1 && !overlapsAny(gaps, cellTime(grid, last), cellTime(grid, cell))) {
      const slope = (values[cell]! - values[last]!) / (cell - last);
      for (let k = last + 1; k < cell; k++) result[k] = values[last]! + slope * (k - last);
    }
    last = cell;
  }
  return result;
}

const overlapsAny = (spans: readonly Span[], start: number, end: number) =>
  spans.some((span) => span.start < end && span.end > start);

/** Moving mean over a window of `width` seconds centred on each cell; NaN cells are left out, all-NaN stays NaN. */
export function smoothed(values: Float64Array, grid: Grid, width: number): Float64Array {
  const half = Math.max(0, Math.round(width / grid.step / 2));
  return values.map((_, cell) => {
    let sum = 0;
    let count = 0;
    for (let k = Math.max(0, cell - half); k <= Math.min(values.length - 1, cell + half); k++) {
      if (Number.isNaN(values[k]!)) continue;
      sum += values[k]!;
      count++;
    }
    return count === 0 ? Number.NaN : sum / count;
  });
}

/** Rate of change by central difference over `width` seconds; NaN where an end is missing. Unit: values' unit per s. */
export function slope(values: Float64Array, grid: Grid, width: number): Float64Array {
  const half = Math.max(1, Math.round(width / grid.step / 2));
  return values.map((_, cell) => {
    const low = Math.max(0, cell - half);
    const high = Math.min(values.length - 1, cell + half);
    return (values[high]! - values[low]!) / ((high - low) * grid.step);
  });
}

/** Runs of cells that hold true, as half-open index ranges. */
export function runsOf(flags: ArrayLike<boolean | number>): { readonly from: number; readonly to: number }[] {
  const runs: { from: number; to: number }[] = [];
  for (let cell = 0; cell < flags.length; cell++) {
    if (!flags[cell]) continue;
    const open = runs.at(-1);
    if (open !== undefined && open.to === cell) open.to = cell + 1;
    else runs.push({ from: cell, to: cell + 1 });
  }
  return runs;
}

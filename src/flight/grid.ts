import type { Channel, Span } from "../log/channel.ts";

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
  const { time, values } = channel.series;
  const sums = new Float64Array(grid.cells);
  const counts = new Uint32Array(grid.cells);
  for (let i = 0; i < time.length; i++) {
    const cell = Math.floor((time[i]! - grid.start) / grid.step);
    if (cell < 0 || cell > grid.cells) continue;
    const within = Math.min(cell, grid.cells - 1);
    sums[within]! += transform === undefined ? values[i]! : transform(values[i]!);
    counts[within]!++;
  }
  const means = sums.map((sum, cell) => (counts[cell]! > 0 ? sum / counts[cell]! : Number.NaN));
  return bridged(means, grid, channel.gaps);
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

import { areFinite } from "../../signal/index.ts";
import type { Series, TextSeries } from "../channel.ts";
import { sameTimes } from "./same-times.ts";

/** Makes series from columns on one clock; channels sampled at the same moments get the same time array. */
export interface SeriesBuilder {
  /**
   * @param cells one value a row of the whole table; missing ones are not finite
   * @param convert applied to each value kept
   * @returns the finite samples in order of time, the first of those that share a stamp; and how many of these fell out
   */
  build(cells: Float64Array, convert: { factor: number; offset: number }): { series: Series; repeated: number };
  buildText(cells: readonly (string | null)[]): TextSeries;
}

/**
 * @param time s, one for each kept row, never falling
 * @param rows the row of the table that each time belongs to, ascending
 */
export function seriesBuilder(time: Float64Array, rows: Uint32Array): SeriesBuilder {
  const pool: Float64Array[] = [];
  const isEveryRow = rows.length > 0 && rows[rows.length - 1] === rows.length - 1 && isRising(time);
  if (isEveryRow) pool.push(time);
  return {
    build(cells, conversion) {
      // The common case, a full column in a log without odd stamps, needs no second copy of the table.
      if (isEveryRow && cells.length === rows.length && areFinite(cells)) {
        return { series: { time, values: converted(cells, conversion) }, repeated: 0 };
      }
      const { kept, repeated } = sampledRows(cells, time, rows);
      const times = new Float64Array(kept.length);
      const values = new Float64Array(kept.length);
      for (let i = 0; i < kept.length; i++) {
        times[i] = time[kept[i]!]!;
        values[i] = cells[rows[kept[i]!]!]!;
      }
      return { series: { time: shared(pool, times), values: converted(values, conversion) }, repeated };
    },
    buildText(cells) {
      const times: number[] = [];
      const values: string[] = [];
      for (let at = 0; at < rows.length; at++) {
        const cell = cells[rows[at]!];
        if (cell === null || cell === undefined || time[at] === times.at(-1)) continue;
        times.push(time[at]!);
        values.push(cell);
      }
      return { time: Float64Array.from(times), values };
    },
  };
}

/** Infinity counts as missing, like NaN. */
const hasValue = (cell: number) => Math.abs(cell) <= Number.MAX_VALUE;

function isRising(time: Float64Array): boolean {
  for (let at = 1; at < time.length; at++) if (!(time[at]! > time[at - 1]!)) return false;
  return true;
}

function converted(cells: Float64Array, { factor, offset }: { factor: number; offset: number }): Float64Array {
  if (factor === 1 && offset === 0) return cells;
  const values = new Float64Array(cells.length);
  for (let i = 0; i < cells.length; i++) values[i] = cells[i]! * factor + offset;
  return values;
}

/** Which of the rows give the channel a sample, as indices into `rows`; how many repeat a stamp that has one already. */
function sampledRows(cells: Float64Array, time: Float64Array, rows: Uint32Array) {
  const kept = new Uint32Array(rows.length);
  let count = 0;
  let repeated = 0;
  for (let at = 0; at < rows.length; at++) {
    if (!hasValue(cells[rows[at]!]!)) continue;
    if (count > 0 && time[kept[count - 1]!] === time[at]) repeated++;
    else kept[count++] = at;
  }
  return { kept: kept.subarray(0, count), repeated };
}

/** The array of the pool that equals this one, or this one, now in the pool. */
function shared(pool: Float64Array[], times: Float64Array): Float64Array {
  const known = pool.find((other) => sameTimes(other, times));
  if (known !== undefined) return known;
  pool.push(times);
  return times;
}

import type { Series, TextSeries } from "../channel.ts";

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
  return {
    build(cells, { factor, offset }) {
      const times = new Float64Array(rows.length);
      const values = new Float64Array(rows.length);
      let count = 0;
      let repeated = 0;
      let last = Number.NaN;
      for (let at = 0; at < rows.length; at++) {
        const cell = cells[rows[at]!]!;
        if (!(Math.abs(cell) <= Number.MAX_VALUE)) continue;
        const now = time[at]!;
        if (now === last) {
          repeated++;
          continue;
        }
        last = now;
        times[count] = now;
        values[count++] = cell * factor + offset;
      }
      return { series: { time: shared(pool, times.subarray(0, count)), values: fitted(values, count) }, repeated };
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

/** The array of the pool that equals this one, or this one, now in the pool. */
function shared(pool: Float64Array[], times: Float64Array): Float64Array {
  const known = pool.find((other) => other.length === times.length && isEqual(other, times));
  if (known !== undefined) return known;
  const own = times.slice();
  pool.push(own);
  return own;
}

function isEqual(a: Float64Array, b: Float64Array): boolean {
  for (let at = 0; at < a.length; at++) if (a[at] !== b[at]) return false;
  return true;
}

const fitted = (array: Float64Array, length: number) => (length === array.length ? array : array.slice(0, length));

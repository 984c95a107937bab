import { InputError } from "../../input/index.ts";
import { increasingRows } from "./increasing-rows.ts";
import { type Sampling, samplingOf } from "./sampling.ts";

/** The clock of a log's rows. */
export interface RowClock {
  /** s from the log's first row; one for each kept row, never falling */
  readonly time: Float64Array;
  /** the row of the table that each time belongs to, ascending */
  readonly rows: Uint32Array;
  /** of the distinct times */
  readonly sampling: Sampling;
  /** s, first to last */
  readonly duration: number;
  readonly backwards: number;
  /** s on the log's clock; null where no stamp runs backwards */
  readonly firstBackwards: number | null;
  /** rows without a stamp */
  readonly missing: number;
}

/**
 * Turns the stamps of a log's rows into seconds from its first row.
 *
 * @param stamps one a row in a unit of `secondsPerUnit`; the first one is subtracted before scaling, so that stamps
 *   counted from 1970 lose nothing
 * @param file for messages only
 * @throws InputError where fewer than two different stamps are left
 */
export function rowClock(stamps: Float64Array, secondsPerUnit: number, file: string, column: string): RowClock {
  const { kept, backwards, firstBackwards, missing } = increasingRows(stamps);
  const place = { file, column };
  if (kept.length === 0) throw new InputError(place, "no row has a time", "name another time column in a channel map");
  const first = stamps[kept[0]!]!;
  const time = new Float64Array(kept.length);
  let distinct = 0;
  for (let at = 0; at < kept.length; at++) {
    time[at] = (stamps[kept[at]!]! - first) * secondsPerUnit;
    if (at === 0 || time[at] !== time[at - 1]) distinct++;
  }
  if (distinct < 2) {
    const problem = kept.length === 1 ? "only one row has a usable time" : "all rows have the same time";
    throw new InputError(place, problem, "name another time column in a channel map");
  }
  return {
    time,
    rows: kept,
    sampling: samplingOf(distinct === time.length ? time : withoutRepeats(time, distinct)),
    duration: time[time.length - 1]!,
    backwards,
    firstBackwards: firstBackwards === null ? null : timeBefore(kept, time, firstBackwards),
    missing,
  };
}

function withoutRepeats(time: Float64Array, distinct: number): Float64Array {
  const result = new Float64Array(distinct);
  let count = 0;
  for (let at = 0; at < time.length; at++) if (at === 0 || time[at] !== time[at - 1]) result[count++] = time[at]!;
  return result;
}

/** Where a row that lost its place stands on the clock: at the last kept row before it. */
function timeBefore(rows: Uint32Array, time: Float64Array, row: number): number {
  let at = 0;
  while (at + 1 < rows.length && rows[at + 1]! < row) at++;
  return time[at]!;
}

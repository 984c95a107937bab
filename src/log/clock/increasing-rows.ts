/** Rows of a log in the order of their stamps. */
export interface IncreasingRows {
  /** indices of the rows kept, ascending; their stamps never fall, and repeat only where rows share a stamp */
  readonly kept: Uint32Array;
  /** rows left out because their stamps run against the rest */
  readonly backwards: number;
  /** first row whose stamp is below the one before it; null where there is none */
  readonly firstBackwards: number | null;
  /** rows left out because they have no stamp */
  readonly missing: number;
}

/**
 * Picks the largest set of rows whose stamps never fall (the longest non-decreasing subsequence, by patience
 * sorting). One wild stamp costs one row, whichever way it points; after a clock that starts anew the longer part stays.
 *
 * @param stamps n stamps in any unit; NaN where a row has none
 */
export function increasingRows(stamps: Float64Array): IncreasingRows {
  const stamped = new Uint32Array(stamps.length);
  let count = 0;
  let firstBackwards: number | null = null;
  let last = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < stamps.length; row++) {
    const stamp = stamps[row]!;
    if (!Number.isFinite(stamp)) continue;
    if (stamp < last) firstBackwards ??= row;
    last = stamp;
    stamped[count++] = row;
  }
  const all = stamped.subarray(0, count);
  const kept = firstBackwards === null ? all : longestNonDecreasing(stamps, all);
  return { kept, backwards: count - kept.length, firstBackwards, missing: stamps.length - count };
}

/** From the last row to the first, so that of two rows that exclude each other the earlier one stays. */
function longestNonDecreasing(stamps: Float64Array, rows: Uint32Array): Uint32Array {
  // heads[k]: where the best chain of k + 1 rows begins, best being the one whose first stamp is latest.
  const heads = new Uint32Array(rows.length);
  const next = new Int32Array(rows.length).fill(-1);
  let length = 0;
  for (let at = rows.length - 1; at >= 0; at--) {
    const stamp = stamps[rows[at]!]!;
    let low = 0;
    let high = length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (stamps[rows[heads[middle]!]!]! >= stamp) low = middle + 1;
      else high = middle;
    }
    next[at] = low === 0 ? -1 : heads[low - 1]!;
    heads[low] = at;
    if (low === length) length++;
  }
  const kept = new Uint32Array(length);
  for (let at = length === 0 ? -1 : heads[length - 1]!, to = 0; at >= 0; at = next[at]!) kept[to++] = rows[at]!;
  return kept;
}

/** Index of the first time that is not before `moment`; n where there is none. */
export function firstAtOrAfter(time: Float64Array, moment: number): number {
  let low = 0;
  let high = time.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (time[middle]! < moment) low = middle + 1;
    else high = middle;
  }
  return low;
}

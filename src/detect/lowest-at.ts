/** Index of the first of the lowest values from `from` to before `to`, at least one. */
export function lowestAt(values: Float64Array, from: number, to: number): number {
  let at = from;
  let lowest = values[from]!;
  for (let k = from + 1; k < to; k++) {
    if (!(values[k]! < lowest)) continue;
    lowest = values[k]!;
    at = k;
  }
  return at;
}

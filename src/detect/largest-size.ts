/** The largest size among some values, sign left out; 0 of none. */
export function largestSize(values: Float64Array): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, Math.abs(values[i]!));
  return most;
}

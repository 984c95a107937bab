/** Sorting a million samples for a percentile is slow, and tens of thousands tell it as well. */
const ENOUGH_FOR_PERCENTILES = 50_000;

/** Enough values, evenly spread over all, for percentiles; a view of all where there are no more than that. */
export function thinned(values: Float64Array): Float64Array {
  const every = Math.ceil(values.length / ENOUGH_FOR_PERCENTILES);
  if (every <= 1) return values;
  const kept = new Float64Array(Math.floor(values.length / every));
  for (let k = 0; k < kept.length; k++) kept[k] = values[k * every]!;
  return kept;
}

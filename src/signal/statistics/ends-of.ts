/** The least and the largest of some values; infinities the wrong way round of none. */
export function endsOf(values: Float64Array): { least: number; most: number } {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { least, most };
}

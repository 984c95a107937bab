/** Adds so many times some values to others, element by element, in place. */
export function addScaled(into: Float64Array, factor: number, values: Float64Array): void {
  for (let i = 0; i < into.length; i++) into[i] = into[i]! + factor * values[i]!;
}

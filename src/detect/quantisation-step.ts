/**
 * The smallest step in which a logged quantity moves: the least change between two samples that differ. A command that
 * rounds to whole microseconds moves by 1, one logged with many digits by next to nothing.
 *
 * @param values n samples, any unit
 * @param range the span the quantity can cover, same unit; the answer is never above 1 % of it, since coarser steps
 *   than that would call half the range a limit
 * @returns the step, same unit; a millionth of the range where the values never change or show no step
 */
export function quantisationStep(values: Float64Array, range: number): number {
  const least = range * 1e-6;
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < values.length; i++) {
    const change = Math.abs(values[i]! - values[i - 1]!);
    if (change > least && change < step) step = change;
  }
  return step > range * 0.01 ? least : step;
}

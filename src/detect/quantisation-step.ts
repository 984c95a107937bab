/** Changes looked at; a step shows in far fewer. */
const MOST_CHANGES = 4096;

/**
 * The step in which a logged quantity moves: the least change between two samples that differ, where the other changes
 * are whole multiples of it. A command that rounds to whole microseconds moves by 1; one logged with many digits, or one
 * that jumps between a few levels, shows no step.
 *
 * @param values n samples, any unit
 * @param range the span the quantity can cover, same unit; a step above 1 % of it is not believed
 * @returns the step, same unit; a millionth of the range where there is none
 */
export function quantisationStep(values: Float64Array, range: number): number {
  const none = range * 1e-6;
  const changes: number[] = [];
  for (let i = 1; i < values.length && changes.length < MOST_CHANGES; i++) {
    const change = Math.abs(values[i]! - values[i - 1]!);
    if (change > none) changes.push(change);
  }
  const least = changes.reduce((step, change) => Math.min(step, change), Number.POSITIVE_INFINITY);
  if (least > range * 0.01) return none;
  const whole = changes.filter((change) => Math.abs(change / least - Math.round(change / least)) < 0.05).length;
  // Chance makes a tenth of the changes look whole; rounding makes all of them.
  return whole >= 0.9 * changes.length && changes.length >= 20 ? least : none;
}

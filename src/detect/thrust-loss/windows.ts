/** s, cells in which thrusts are averaged */
export const CELL = 0.1;
/** s compared before and after; s between them in which the loops settle anew */
const BEFORE = 2;
export const AFTER = 2;
export const SETTLING = 1;

/** The two windows that are compared at each cell, in cells: `before` ends there, `after` begins `gap` later. */
export interface Windows {
  readonly before: number;
  readonly after: number;
  readonly gap: number;
}

export const WINDOWS: Windows = {
  before: Math.round(BEFORE / CELL),
  after: Math.round(AFTER / CELL),
  gap: Math.round(SETTLING / CELL),
};

/** Mean and variance of the cells `from` to `to`, the last left out. */
export function statistics(values: Float64Array, from: number, to: number): { mean: number; variance: number } {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  const mean = sum / (to - from);
  let squares = 0;
  for (let i = from; i < to; i++) squares += (values[i]! - mean) ** 2;
  return { mean, variance: squares / (to - from - 1) };
}

/** How much of a step goes along a pattern: their scalar product. Both hold one value a motor, in the unit of the thrusts. */
export const along = (pattern: Float64Array, step: ArrayLike<number>) =>
  pattern.reduce((sum, part, k) => sum + part * step[k]!, 0);

/** Squared length of a pattern. */
export const square = (pattern: Float64Array) => pattern.reduce((sum, part) => sum + part * part, 0);

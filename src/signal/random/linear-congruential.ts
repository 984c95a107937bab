/**
 * Deterministic noise for fixtures, the same bits in any language with 64-bit floats: s = (1664525 s + 1013904223)
 * mod 2^32, u = s / 2^32. Poor randomness, perfect repeatability; see `randomGenerator` for studies.
 * @param seed whole number from 0 to 2^32 - 1
 * @returns `count` numbers from 0 to below 1
 * @see Press et al., Numerical Recipes, section 7.1
 */
export function linearCongruential(seed: number, count: number): Float64Array {
  let state = seed;
  return Float64Array.from({ length: count }, () => {
    state = (1664525 * state + 1013904223) % 4294967296;
    return state / 4294967296;
  });
}

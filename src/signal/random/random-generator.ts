/** A stream of random numbers that the same seed always repeats. */
export interface RandomGenerator {
  /** The next whole number from 0 to 2^32 - 1. */
  next(): number;
  /** The next number from 0 to below 1, on a grid of 2^-53. */
  uniform(): number;
  /** The next whole number from 0 to below `limit`. */
  below(limit: number): number;
  /** The next normal number, of mean 0 and standard deviation 1. */
  gaussian(): number;
  /** That many normal numbers. */
  gaussians(count: number): Float64Array;
}

/**
 * A seeded generator: xoshiro128**, its state spread from the seed by a 32-bit mixing function.
 * @param seed any whole number; taken modulo 2^32
 * @see Blackman & Vigna 2021, ACM Trans. Math. Softw. 47(4):36; Marsaglia & Bray 1964, SIAM Rev. 6(3):260-264
 */
export function randomGenerator(seed: number): RandomGenerator {
  let mix = seed >>> 0;
  const spread = () => {
    mix = (mix + 0x9e3779b9) | 0;
    let z = Math.imul(mix ^ (mix >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let [a, b, c, d] = [spread(), spread(), spread(), spread()];
  let spare = Number.NaN;

  function next(): number {
    const product = Math.imul(b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result >>> 0;
  }
  function uniform(): number {
    return ((next() >>> 5) * 67108864 + (next() >>> 6)) / 9007199254740992;
  }
  /** Marsaglia's polar method makes two normal numbers at a time; the second waits in `spare`. */
  function gaussian(): number {
    if (!Number.isNaN(spare)) {
      const value = spare;
      spare = Number.NaN;
      return value;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * factor;
      return x * factor;
    }
  }
  return {
    next,
    uniform,
    below: (limit) => Math.floor(uniform() * limit),
    gaussian,
    gaussians: (count) => Float64Array.from({ length: count }, gaussian),
  };
}

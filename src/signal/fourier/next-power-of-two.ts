/** The smallest power of two that is at least `length`. */
export function nextPowerOfTwo(length: number): number {
  let power = 1;
  while (power < length) power *= 2;
  return power;
}

export function isPowerOfTwo(length: number): boolean {
  return nextPowerOfTwo(length) === length;
}

/** `value` rounded to `digits` significant decimal digits: a page need not carry the noise behind them. */
export function significant(value: number, digits = 5): number {
  if (value === 0 || !Number.isFinite(value)) return value;
  const decimals = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  return Math.abs(decimals) > EXACT ? Number(value.toPrecision(digits)) : rounded(value, decimals);
}

/** Powers of ten up to this one are exact as floating point numbers. */
const EXACT = 22;

/**
 * `value` rounded to so many decimals, below zero to tens, hundreds and so on; at most 22 either way. Much faster than by
 * way of text.
 */
export function rounded(value: number, decimals: number): number {
  // The power is exact, and one division or product by it is the float nearest to the decimal digits.
  const power = 10 ** Math.abs(decimals);
  const size = Math.abs(value);
  const near = decimals < 0 ? Math.round(size / power) * power : Math.round(size * power) / power;
  return value < 0 ? -near : near;
}

/** `value` rounded to `digits` significant decimal digits: a page need not carry the noise behind them. */
export function significant(value: number, digits = 5): number {
  if (value === 0 || !Number.isFinite(value)) return value;
  const decimals = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  return rounded(value, decimals);
}

/** `value` rounded to so many decimals; below zero to tens, hundreds and so on. */
export function rounded(value: number, decimals: number): number {
  // By a power of ten that is exact, whichever way it goes: the result is then the float nearest to its decimal digits.
  const power = 10 ** Math.abs(decimals);
  return decimals < 0 ? Math.round(value / power) * power : Math.round(value * power) / power;
}

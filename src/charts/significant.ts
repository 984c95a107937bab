/** `value` rounded to `digits` significant decimal digits: a page need not carry the noise behind them. */
export function significant(value: number, digits = 5): number {
  return value === 0 || !Number.isFinite(value) ? value : Number(value.toPrecision(digits));
}

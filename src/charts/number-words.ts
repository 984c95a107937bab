/** A number for people: `digits` significant digits, a true minus sign, no exponent for anything a flight produces. */
export function numberWords(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return "unknown";
  const size = Math.abs(value);
  const decimals = size === 0 ? 0 : Math.min(9, Math.max(0, digits - 1 - Math.floor(Math.log10(size))));
  return withDecimals(value, decimals);
}

/** A number with a fixed count of decimals; what rounds to zero loses its sign. */
export function withDecimals(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

/** A share, 0..1, in percent: whole percents from ten on, below that one decimal, and never a zero that is not one. */
export function percentWords(share: number): string {
  const percent = share * 100;
  if (percent > 0 && percent < 0.1) return "less than 0.1 %";
  return `${withDecimals(percent, Math.abs(percent) >= 10 || percent === 0 ? 0 : 1)} %`;
}

/** A time on the log's clock or a duration: tenths below a hundred seconds, hundredths below ten, else whole seconds. */
export function secondsWords(seconds: number): string {
  const size = Math.abs(seconds);
  return `${withDecimals(seconds, size < 10 ? 2 : size < 1000 ? 1 : 0)} s`;
}

/** `1 episode`, `3 episodes`. */
export function countWords(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** The text with its first letter large. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

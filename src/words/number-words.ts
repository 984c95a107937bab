/** A number for people: `digits` significant digits, a true minus sign, no exponent for anything a flight produces. */
export function numberWords(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return "unknown";
  const size = Math.abs(value);
  const decimals = size === 0 ? 0 : Math.min(9, Math.max(0, digits - 1 - Math.floor(Math.log10(size))));
  const text = withDecimals(value, decimals);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
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

/** A time on the log's clock or a short duration: hundredths below a second, tenths above. */
export function secondsWords(seconds: number): string {
  return `${withDecimals(seconds, Math.abs(seconds) < 1 && seconds !== 0 ? 2 : 1)} s`;
}

/** How long something lasted: as `secondsWords`, but never a zero that is not one. */
export function lengthWords(seconds: number): string {
  return seconds > 0 && seconds < 0.005 ? "less than 0.01 s" : secondsWords(seconds);
}

/** `12.0 s to 14.5 s`; `at 16.9 s for 0.01 s` where both ends would read alike. */
export function spanWords({ start, end }: { readonly start: number; readonly end: number }): string {
  const [from, to] = [secondsWords(start), secondsWords(end)];
  if (from !== to) return `${from} to ${to}`;
  return end > start ? `at ${from} for ${lengthWords(end - start)}` : `at ${from}`;
}

/** How long a log is: `87 s`, `4 min`, `10 min 30 s`. */
export function durationWords(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 120) return `${seconds < 10 ? withDecimals(seconds, 1) : whole} s`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)} min${rest === 0 ? "" : ` ${rest} s`}`;
}

/** `1 episode`, `3 episodes`. */
export function countWords(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** The text with its first letter large. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The text with its first letter small. */
export function uncapital(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

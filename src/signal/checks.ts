import { ArgumentError, NotFiniteError, SignalTooShortError } from "./errors.ts";

/** Whether no value is NaN or infinite. */
export function areFinite(values: ArrayLike<number>): boolean {
  // A number less itself is 0, but for infinities and NaN: then it is NaN, which no later sum gets rid of.
  let even = 0;
  let odd = 0;
  const pairs = values.length & ~1;
  for (let i = 0; i < pairs; i += 2) {
    even += values[i]! - values[i]!;
    odd += values[i + 1]! - values[i + 1]!;
  }
  if (pairs < values.length) even += values[pairs]! - values[pairs]!;
  return even + odd === 0;
}

/** Refuses NaN and infinities: numerics answer only for numbers. */
export function requireFinite(values: ArrayLike<number>, argument: string): void {
  if (areFinite(values)) return;
  const index = Array.prototype.findIndex.call(values, (value: number) => !Number.isFinite(value));
  throw new NotFiniteError(argument, index, values[index]!);
}

/** Refuses fewer than `needed` samples. */
export function requireCount(samples: ArrayLike<number>, needed: number, argument = "samples", remedy?: string): void {
  if (samples.length < needed) throw new SignalTooShortError(argument, samples.length, needed, remedy);
}

/** Refuses fewer than `needed` samples, and any that is not finite. */
export function requireSamples(
  samples: ArrayLike<number>,
  needed: number,
  argument = "samples",
  remedy?: string,
): void {
  requireCount(samples, needed, argument, remedy);
  requireFinite(samples, argument);
}

/** Refuses two arrays of different length. */
export function requireSameLength(first: ArrayLike<number>, second: ArrayLike<number>, argument: string): void {
  if (first.length === second.length) return;
  throw new ArgumentError(argument, `${second.length} values`, `as many values as its partner (${first.length})`);
}

/** Refuses anything but a finite number above zero, such as a sample rate. */
export function requirePositive(value: number, argument: string): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
    throw new ArgumentError(argument, value, "a finite number above 0");
  }
}

/** Refuses anything but a whole number from `least` to `most`. */
export function requireWhole(value: number, least: number, argument: string, most = Number.MAX_SAFE_INTEGER): void {
  if (Number.isInteger(value) && value >= least && value <= most) return;
  const upTo = most === Number.MAX_SAFE_INTEGER ? "" : ` and at most ${most}`;
  throw new ArgumentError(argument, value, `a whole number of at least ${least}${upTo}`);
}

/** Refuses a value outside the open interval from `low` to `high`, such as a probability from 0 to 1. */
export function requireBetween(value: number, low: number, high: number, argument: string, remedy?: string): void {
  if (!(value > low && value < high))
    throw new ArgumentError(argument, value, `a number between ${low} and ${high}`, remedy);
}

/** Refuses a frequency that a signal of this sample rate cannot hold. */
export function requireBelowNyquist(frequency: number, sampleRate: number, argument: string): void {
  const remedy = "frequencies from half the sample rate up cannot be told from lower ones";
  requireBetween(frequency, 0, sampleRate / 2, argument, remedy);
}

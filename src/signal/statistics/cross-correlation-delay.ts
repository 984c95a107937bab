import { requireFinite, requirePositive, requireSameLength, requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { nextPowerOfTwo } from "../fourier/next-power-of-two.ts";
import { realSpectrumPlan } from "../fourier/real-spectrum.ts";

export interface DelayOptions {
  /** Longest delay looked for, either way, s; default a quarter of the record. */
  readonly maxDelay?: number;
}

export interface Delay {
  /** By which the second signal lags the first (below zero: leads it), s, between samples. */
  readonly delay: number;
  /** For a residual that is white, s. */
  readonly standardError: number;
  /** Correlation at that delay, -1 to 1. */
  readonly correlation: number;
}

/**
 * Delay of one signal behind another, from the highest peak of their cross-correlation. The peak is placed between
 * samples on the band-limited curve through them, by Newton's method. Both are padded with zeros to twice the length,
 * which keeps one end from running into the other; their means are taken off.
 * @param first n values, n of at least 8
 * @param second n values
 * @param sampleRate samples per second, Hz
 * @throws ArgumentError if either signal is constant; SignalTooShortError; NotFiniteError
 * @see Knapp & Carter 1976, IEEE Trans. Acoust. Speech Signal Process. 24(4):320-327
 */
export function crossCorrelationDelay(
  first: Float64Array,
  second: Float64Array,
  sampleRate: number,
  options: DelayOptions = {},
): Delay {
  requirePositive(sampleRate, "sampleRate");
  requireSamples(first, 8, "first");
  requireSameLength(first, second, "second");
  requireFinite(second, "second");
  const count = first.length;
  const { maxDelay = count / 4 / sampleRate } = options;
  requirePositive(maxDelay, "maxDelay");
  const length = nextPowerOfTwo(2 * count);
  const a = centredSpectrum(first, length);
  const b = centredSpectrum(second, length);
  if (!(a.power > 0 && b.power > 0)) throw new ArgumentError("first, second", "a constant signal", "two that vary");
  // conj(A) B: its inverse transform at lag l is sum first[t] second[t + l].
  const re = a.re.map((x, k) => x * b.re[k]! + a.im[k]! * b.im[k]!);
  const im = a.re.map((x, k) => x * b.im[k]! - a.im[k]! * b.re[k]!);
  const curve = (lag: number) => correlationCurve(re, im, length, lag);
  const most = Math.min(count - 1, Math.floor(maxDelay * sampleRate));
  let lag = highestLag(re, im, length, most);
  for (let i = 0; i < 20; i++) {
    const { slope, curvature } = curve(lag);
    const step = curvature < 0 ? Math.max(-0.5, Math.min(0.5, -slope / curvature)) : 0;
    lag += step;
    if (Math.abs(step) < 1e-12) break;
  }
  const { value, curvature } = curve(lag);
  const correlation = value / Math.sqrt(a.power * b.power);
  // Least squares of second on a shifted first: var(lag) = noise variance / (gain² sum of squared slopes of first).
  const gain = value / a.power;
  const noise = Math.max(0, (b.power - gain * value) / (count - 2));
  const error = Math.sqrt(noise / Math.max(1e-300, -gain * curvature));
  return { delay: lag / sampleRate, standardError: error / sampleRate, correlation };
}

function centredSpectrum(samples: Float64Array, length: number) {
  const plan = realSpectrumPlan(length);
  const mean = samples.reduce((sum, value) => sum + value, 0) / samples.length;
  plan.samples.fill(0);
  let power = 0;
  let level = 0;
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i]! - mean;
    plan.samples[i] = value;
    power += value * value;
    level = Math.max(level, Math.abs(samples[i]!));
  }
  plan.run();
  // A constant leaves rounding errors of its mean behind, which are no signal.
  const isConstant = power <= samples.length * (1e-14 * level) ** 2;
  return { re: plan.re.slice(), im: plan.im.slice(), power: isConstant ? 0 : power };
}

/** Cross-correlation at any lag in samples, with its first two derivatives. */
function correlationCurve(re: Float64Array, im: Float64Array, length: number, lag: number) {
  const half = length / 2;
  let value = re[0]!;
  let slope = 0;
  let curvature = 0;
  for (let k = 1; k <= half; k++) {
    const omega = (2 * Math.PI * k) / length;
    const weight = k === half ? 1 : 2;
    const [cosine, sine] = [Math.cos(omega * lag), Math.sin(omega * lag)];
    const along = weight * (re[k]! * cosine - im[k]! * sine);
    value += along;
    slope -= weight * omega * (re[k]! * sine + im[k]! * cosine);
    curvature -= omega * omega * along;
  }
  return { value: value / length, slope: slope / length, curvature: curvature / length };
}

/** The whole lag of highest correlation within the limit. */
function highestLag(re: Float64Array, im: Float64Array, length: number, most: number): number {
  // A forward transform of the real and of the imaginary part gives the even and the odd half of the correlation.
  const plan = realSpectrumPlan(length);
  const half = length / 2;
  for (let k = 0; k < length; k++) plan.samples[k] = re[k <= half ? k : length - k]!;
  plan.run();
  const even = plan.re.slice(0, most + 1);
  for (let k = 0; k < length; k++) plan.samples[k] = k <= half ? im[k]! : -im[length - k]!;
  plan.samples[half] = 0;
  plan.run();
  const odd = plan.im.slice(0, most + 1);
  let best = 0;
  let highest = Number.NEGATIVE_INFINITY;
  for (let lag = -most; lag <= most; lag++) {
    const value = even[Math.abs(lag)]! + (lag < 0 ? -odd[-lag]! : odd[lag]!);
    if (value > highest) [best, highest] = [lag, value];
  }
  return best;
}

import { requireFinite, requirePositive, requireSameLength, requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { nextPowerOfTwo } from "../fourier/next-power-of-two.ts";
import { inverseRealSpectrum, realSpectrum } from "../fourier/real-spectrum.ts";
import { dot } from "../linear-algebra/dot.ts";
import { leastSquares } from "../linear-algebra/least-squares.ts";
import { centred, mean } from "./moments.ts";

export interface DelayOptions {
  /** Longest delay looked for, either way, s; default a quarter of the record. */
  readonly maxDelay?: number;
}

export interface Delay {
  /** By which the second signal lags the first (below zero: leads it), s, between samples. */
  readonly delay: number;
  /** For a residual that is white, s. */
  readonly standardError: number;
  /** Correlation at that delay, -1 to 1. Two signals of opposite sign are not looked for: negate one first. */
  readonly correlation: number;
}

/**
 * Delay of one signal behind another. The highest peak of their cross-correlation gives it to the nearest sample; from
 * there least squares fits the second signal by the first, shifted by a part of a sample with a windowed sinc. Only
 * where both signals are known does it look, so that the ends do not pull. The error supposes a first signal without
 * noise and residuals that are white.
 * @param first n values, n of at least 32
 * @param second n values
 * @param sampleRate samples per second, Hz
 * @throws ArgumentError if either signal is constant; SingularMatrixError if the first is a straight line, which looks
 *   the same earlier or later; SignalTooShortError; NotFiniteError
 * @see Knapp & Carter 1976, IEEE Trans. Acoust. Speech Signal Process. 24(4):320-327; Laakso et al. 1996, IEEE Signal
 *   Process. Mag. 13(1):30-60
 */
export function crossCorrelationDelay(
  first: Float64Array,
  second: Float64Array,
  sampleRate: number,
  options: DelayOptions = {},
): Delay {
  requirePositive(sampleRate, "sampleRate");
  requireSamples(first, 32, "first");
  requireSameLength(first, second, "second");
  requireFinite(second, "second");
  const count = first.length;
  const { maxDelay = count / 4 / sampleRate } = options;
  requirePositive(maxDelay, "maxDelay");
  requireVarying(first, "first");
  requireVarying(second, "second");
  const [a, b] = [centred(first), centred(second)];
  // At most half the record: what remains must still hold a fit.
  let lag = highestLag(a, b, Math.min(count >> 1, Math.floor(maxDelay * sampleRate)));
  const whole = lag;
  let pair = shiftedPair(a, b, lag, whole);
  for (let i = 0; i < 20; i++) {
    const from = lag;
    const step = Math.max(-0.5, Math.min(0.5, missedBy(pair)));
    lag = Math.max(whole - 1, Math.min(whole + 1, from + step));
    // What is left after a step goes with its square. At a bound the steps may point outwards for ever.
    if (Math.abs(lag - from) < 1e-3) break;
    pair = shiftedPair(a, b, lag, whole);
  }
  const { values, slopes, target } = pair;
  const level = new Float64Array(target.length).fill(1);
  const { coefficients, covariance } = leastSquares([level, values, slopes], target);
  const error = Math.sqrt(covariance.data[8]!) / Math.abs(coefficients[1]!);
  return { delay: lag / sampleRate, standardError: error / sampleRate, correlation: correlationOf(values, target) };
}

function requireVarying(samples: Float64Array, argument: string): void {
  if (samples.every((value) => value === samples[0]))
    throw new ArgumentError(argument, "a constant", "a signal that varies");
}

/** Half the length of the interpolating sinc, samples. */
const reach = 12;

interface ShiftedPair {
  readonly values: Float64Array;
  readonly slopes: Float64Array;
  readonly target: Float64Array;
}

/** first(t - lag) with its slope, and second(t), where `reach` samples on either side are known. */
function shiftedPair(first: Float64Array, second: Float64Array, lag: number, whole: number): ShiftedPair {
  const margin = Math.min(reach, (first.length - Math.abs(whole)) >> 2);
  const start = Math.max(0, whole) + margin + 2;
  const end = first.length + Math.min(0, whole) - margin - 2;
  return { ...shifted(first, lag, start, end, margin), target: second.subarray(start, end) };
}

/** Samples by which a lag is too short, to first order: from target ~ level + gain (values - samples slopes). */
function missedBy({ values, slopes, target }: ShiftedPair): number {
  const [vv, vs, ss] = [covariance(values, values), covariance(values, slopes), covariance(slopes, slopes)];
  const [vt, st] = [covariance(values, target), covariance(slopes, target)];
  const gain = vt * ss - st * vs;
  return gain === 0 ? 0 : -(st * vv - vt * vs) / gain;
}

/** Mean product of two signals about their means. */
const covariance = (a: Float64Array, b: Float64Array) => dot(a, b) / a.length - mean(a) * mean(b);

/** A signal's values and slopes (per sample) at t - lag for t from `start` to before `end`. */
function shifted(samples: Float64Array, lag: number, start: number, end: number, margin: number) {
  const count = end - start;
  const values = new Float64Array(count);
  const slopes = new Float64Array(count);
  const base = Math.floor(-lag) - margin;
  const part = -lag - Math.floor(-lag);
  // The sinc is slid by a little either way for the slope, which needs a sample more at each end.
  const places = Array.from({ length: 2 * margin + 2 }, (_, i) => part + margin - i);
  const weights = Float64Array.from(places, (x) => kernel(x, margin));
  const tilts = Float64Array.from(places, (x) => (kernel(x + NUDGE, margin) - kernel(x - NUDGE, margin)) / (2 * NUDGE));
  // Two neighbours at a time share their samples and weights.
  for (let t = 0; t < count; t += 2) {
    const from = start + t + base;
    let value = 0;
    let slope = 0;
    let nextValue = 0;
    let nextSlope = 0;
    let sample = samples[from]!;
    for (let i = 0; i < weights.length; i++) {
      const weight = weights[i]!;
      const tilt = tilts[i]!;
      // After the last one there may be no sample; nothing is kept of what comes of that.
      const next = samples[from + i + 1]!;
      value += weight * sample;
      slope += tilt * sample;
      nextValue += weight * next;
      nextSlope += tilt * next;
      sample = next;
    }
    values[t] = value;
    slopes[t] = slope;
    if (t + 1 === count) break;
    values[t + 1] = nextValue;
    slopes[t + 1] = nextSlope;
  }
  return { values, slopes };
}

/** Samples by which the signal is slid to take its slope. */
const NUDGE = 0.02;

/** A sinc under a Hann window that ends `margin` samples away. */
function kernel(x: number, margin: number): number {
  if (Math.abs(x) >= margin) return 0;
  return (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x)) * Math.cos((Math.PI * x) / (2 * margin)) ** 2;
}

function correlationOf(a: Float64Array, b: Float64Array): number {
  const [aa, bb] = [covariance(a, a), covariance(b, b)];
  return aa > 0 && bb > 0 ? covariance(a, b) / Math.sqrt(aa * bb) : 0;
}

/** The whole lag, up to `most` either way, at which sum first[t] second[t + lag] is highest. */
function highestLag(first: Float64Array, second: Float64Array, most: number): number {
  // Padded with zeros to twice the length, which keeps one end from running into the other.
  const length = nextPowerOfTwo(2 * first.length);
  const [a, b] = [realSpectrum(first, length), realSpectrum(second, length)];
  const product = { re: new Float64Array(a.re.length), im: new Float64Array(a.re.length) };
  for (let k = 0; k < product.re.length; k++) {
    product.re[k] = a.re[k]! * b.re[k]! + a.im[k]! * b.im[k]!;
    product.im[k] = a.re[k]! * b.im[k]! - a.im[k]! * b.re[k]!;
  }
  const correlation = inverseRealSpectrum(product, length);
  let best = 0;
  const at = (lag: number) => correlation[lag < 0 ? lag + length : lag]!;
  for (let lag = -most; lag <= most; lag++) if (at(lag) > at(best)) best = lag;
  return best;
}

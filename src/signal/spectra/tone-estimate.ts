import { requireBetween, requirePositive, requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { nextPowerOfTwo } from "../fourier/next-power-of-two.ts";
import { realSpectrumPlan } from "../fourier/real-spectrum.ts";
import { leastSquares } from "../linear-algebra/least-squares.ts";
import { type Estimate, estimate } from "../modes/mode.ts";

export interface ToneOptions {
  /** Search from this frequency, Hz; default two periods in the record. */
  readonly from?: number;
  /** Search to this frequency, Hz; default half the sample rate less two periods in the record. */
  readonly to?: number;
  /** Confidence of the intervals; default 0.95. */
  readonly confidence?: number;
}

export interface Tone {
  /** Hz. */
  readonly frequency: Estimate;
  /** In the unit of the samples; not rms. */
  readonly amplitude: Estimate;
  /** Of the cosine at the first sample, rad. */
  readonly phase: number;
}

/**
 * The strongest steady sine of a record: the highest peak of its spectrum, then least squares on frequency, amplitude
 * and phase, which reaches the Cramér-Rao bound. The standard errors take the noise near the tone, which need not be
 * white. They hold for a tone some 15 dB above the noise in its own bin; a wandering frequency calls for shorter records.
 * @param samples n uniformly spaced values of one stretch, n of at least 32; the mean is fitted too
 * @param sampleRate samples per second, Hz
 * @throws SignalTooShortError; NotFiniteError; ArgumentError for a constant signal or an empty range
 * @see Rife & Boorstyn 1974, IEEE Trans. Inf. Theory 20(5):591-598
 */
export function toneEstimate(samples: Float64Array, sampleRate: number, options: ToneOptions = {}): Tone {
  requirePositive(sampleRate, "sampleRate");
  requireSamples(samples, 32);
  const count = samples.length;
  const { from = (2 * sampleRate) / count, to = sampleRate / 2 - (2 * sampleRate) / count, confidence } = options;
  requireBetween(from, 0, sampleRate / 2, "from");
  requireBetween(to, from, sampleRate / 2, "to");
  let omega = (2 * Math.PI * coarseFrequency(samples, sampleRate, from, to)) / sampleRate;
  let fit = fitTone(samples, omega, 0, 0);
  for (let iteration = 0; iteration < 20; iteration++) {
    const [a, b] = [fit.coefficients[1]!, fit.coefficients[2]!];
    fit = fitTone(samples, omega, a, b);
    // Half a bin at most: the coarse search was nearer than that.
    const step = Math.max(-Math.PI / count, Math.min(Math.PI / count, fit.coefficients[3]!));
    omega += step;
    if (Math.abs(step) < 1e-10 / count) break;
  }
  const [, a, b] = fit.coefficients;
  const amplitude = Math.hypot(a!, b!);
  const noise = noiseNear(fit.residuals, omega);
  const scale = fit.residualVariance > 0 ? noise.density / fit.residualVariance : 0;
  const variance = (k: number) => Math.max(0, fit.covariance.data[5 * k]! * scale);
  const frequencyError = (Math.sqrt(variance(3)) * sampleRate) / (2 * Math.PI);
  const amplitudeError = Math.sqrt((a! ** 2 * variance(1) + b! ** 2 * variance(2)) / amplitude ** 2);
  return {
    frequency: estimate((omega * sampleRate) / (2 * Math.PI), frequencyError, noise.degreesOfFreedom, confidence),
    amplitude: estimate(amplitude, amplitudeError, noise.degreesOfFreedom, confidence),
    phase: Math.atan2(-b!, a!),
  };
}

/** The highest bin of a Hann-windowed spectrum, padded with zeros to at least four times the length. */
function coarseFrequency(samples: Float64Array, sampleRate: number, from: number, to: number): number {
  const count = samples.length;
  const plan = realSpectrumPlan(nextPowerOfTwo(4 * count));
  const mean = samples.reduce((sum, value) => sum + value, 0) / count;
  plan.samples.fill(0);
  for (let n = 0; n < count; n++)
    plan.samples[n] = (samples[n]! - mean) * (1 - Math.cos((2 * Math.PI * (n + 0.5)) / count));
  plan.run();
  let best = 0;
  let highest = 0;
  for (let k = 0; k < plan.re.length; k++) {
    const frequency = (k * sampleRate) / plan.length;
    const power = plan.re[k]! ** 2 + plan.im[k]! ** 2;
    if (frequency >= from && frequency <= to && power > highest) [best, highest] = [frequency, power];
  }
  if (highest === 0)
    throw new ArgumentError("samples", "no power between `from` and `to`", "a signal that varies there");
  return best;
}

/** Least squares on level, cosine, sine and, once these are known, a small change of frequency. */
function fitTone(samples: Float64Array, omega: number, a: number, b: number) {
  const middle = (samples.length - 1) / 2;
  const cosine = samples.map((_, n) => Math.cos(omega * n));
  const sine = samples.map((_, n) => Math.sin(omega * n));
  const columns = [new Float64Array(samples.length).fill(1), cosine, sine];
  if (a !== 0 || b !== 0) columns.push(cosine.map((c, n) => (n - middle) * (b * c - a * sine[n]!)));
  return leastSquares(columns, samples);
}

/** Mean periodogram of the residuals over some bins on either side of the tone: the noise variance as the tone meets it. */
function noiseNear(residuals: Float64Array, omega: number): { density: number; degreesOfFreedom: number } {
  const count = residuals.length;
  const plan = realSpectrumPlan(count);
  plan.samples.set(residuals);
  plan.run();
  const centre = Math.round((omega * count) / (2 * Math.PI));
  const reach = Math.max(8, Math.min(25, Math.round(count / 40)));
  let [sum, bins] = [0, 0];
  for (let k = Math.max(1, centre - reach); k <= Math.min(Math.ceil(count / 2) - 1, centre + reach); k++) {
    // Next to the tone the fit has taken noise away with it.
    if (Math.abs(k - centre) < 2) continue;
    sum += (plan.re[k]! ** 2 + plan.im[k]! ** 2) / count;
    bins++;
  }
  return { density: sum / bins, degreesOfFreedom: 2 * bins };
}

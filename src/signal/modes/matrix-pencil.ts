import { requirePositive, requireSamples, requireWhole } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { SingularMatrixError } from "../linear-algebra/matrix.ts";
import {
  type DampedSinusoid,
  fitAmplitudes,
  refineSinusoids,
  type SinusoidFit,
  withCovariances,
} from "./damped-sinusoids.ts";
import { type HankelSubspace, hankelSubspace } from "./hankel-subspace.ts";
import { type Mode, modeOfPole } from "./mode.ts";
import { pencilPoles } from "./pencil-poles.ts";

export interface MatrixPencilOptions {
  /** Poles to look for: two for each oscillation, one for each plain decay. Default: chosen by `maxOrder` and BIC. */
  readonly order?: number;
  /** Most poles to consider when the order is chosen; default 8. */
  readonly maxOrder?: number;
  /** Pencil parameter, samples; default a third of the signal. */
  readonly pencil?: number;
  /** Polish by maximum likelihood for white noise; default true. False gives the bare matrix pencil. */
  readonly refine?: boolean;
  /** Confidence of the intervals; default 0.95. */
  readonly confidence?: number;
}

/** A mode as it stands in the signal. */
export interface RingDownMode extends Mode {
  /** At the first sample, in the unit of the samples. */
  readonly amplitude: number;
  /** Of the cosine at the first sample, rad. */
  readonly phase: number;
}

export interface RingDown {
  /** Strongest (by energy over the signal) first. */
  readonly modes: readonly RingDownMode[];
  /** Poles used. */
  readonly order: number;
  /** Standard deviation of what the modes leave over, in the unit of the samples. */
  readonly residualDeviation: number;
}

/**
 * Frequency, damping and amplitude of a few decaying or growing oscillations in a free response, by the matrix pencil
 * method. Intervals are those of a maximum-likelihood fit with white noise of unknown size: filter out or decimate
 * away other frequencies first, and do not take them at their word where the residual is not white.
 * @param samples n uniformly spaced values with the mean (or rest level) taken off, n of at least 8
 * @param sampleRate samples per second, Hz
 * @returns no modes for a signal that is zero throughout
 * @throws SignalTooShortError; NotFiniteError; ArgumentError if the order does not fit the pencil
 * @see Hua & Sarkar 1990, IEEE Trans. Acoust. Speech Signal Process. 38(5):814-824
 */
export function matrixPencil(samples: Float64Array, sampleRate: number, options: MatrixPencilOptions = {}): RingDown {
  requirePositive(sampleRate, "sampleRate");
  requireSamples(samples, 8);
  const { pencil = Math.floor(samples.length / 3), refine = true, confidence } = options;
  requireWhole(pencil, 2, "pencil", samples.length - 2);
  const most = Math.min(pencil, samples.length - pencil, Math.floor((samples.length - 1) / 3));
  if (options.order !== undefined) requireWhole(options.order, 1, "order", most);
  if (options.maxOrder !== undefined) requireWhole(options.maxOrder, 1, "maxOrder");
  if (samples.every((value) => value === 0)) return { modes: [], order: 0, residualDeviation: 0 };
  const maxOrder = Math.min(most, options.order ?? options.maxOrder ?? 8);
  const subspace = hankelSubspace(samples, pencil + 1, maxOrder);
  const fit = options.order
    ? fitOfOrder(samples, subspace, options.order)
    : fitOfBestOrder(samples, subspace, maxOrder);
  if (!fit) throw tooHighOrder(options.order);
  // The bare estimate has nearly the spread of the polished one, and the same form of interval.
  const used = unlessSingular(() => (refine ? refineSinusoids(samples, fit) : withCovariances(samples, fit)));
  if (!used) throw tooHighOrder(options.order);
  const modes = used.terms.map((term, i) => ({
    energy: energyOf(term, samples.length),
    mode: ringDownMode(term, used.covariances[i]!, sampleRate, used.degreesOfFreedom, confidence),
  }));
  return {
    modes: modes.sort((p, q) => q.energy - p.energy).map(({ mode }) => mode),
    order: used.terms.reduce((sum, { omega }) => sum + (omega > 0 ? 2 : 1), 0),
    residualDeviation: Math.sqrt(used.squares / Math.max(1, used.degreesOfFreedom)),
  };
}

function ringDownMode(
  { sigma, omega, a, b }: DampedSinusoid,
  [ss, so, oo]: readonly [number, number, number],
  sampleRate: number,
  degreesOfFreedom: number,
  confidence?: number,
): RingDownMode {
  const square = sampleRate ** 2;
  const covariance = [ss * square, so * square, oo * square] as const;
  const pole = { sigma: sigma * sampleRate, omega: omega * sampleRate, covariance };
  return { ...modeOfPole(pole, degreesOfFreedom, confidence), amplitude: Math.hypot(a, b), phase: Math.atan2(-b, a) };
}

/** Poles of one order with their amplitudes; undefined if they cannot be told apart. */
function fitOfOrder(samples: Float64Array, subspace: HankelSubspace, order: number): SinusoidFit | undefined {
  const { re, im } = pencilPoles(subspace, order);
  const poles: { sigma: number; omega: number }[] = [];
  for (let k = 0; k < order; k++) {
    const size = Math.hypot(re[k]!, im[k]!);
    // One of each conjugate pair stands for both. A pole at 0 is gone after one sample, and says nothing.
    if (im[k]! < 0 || size < 1e-6) continue;
    poles.push({ sigma: Math.log(size), omega: Math.atan2(im[k]!, re[k]!) });
  }
  if (poles.length === 0) return undefined;
  return unlessSingular(() => fitAmplitudes(samples, poles));
}

/** The fit, or undefined if two of its terms cannot be told apart. */
function unlessSingular(attempt: () => SinusoidFit): SinusoidFit | undefined {
  try {
    return attempt();
  } catch (error) {
    if (!(error instanceof SingularMatrixError)) throw error;
    return undefined;
  }
}

function tooHighOrder(order: number | undefined): ArgumentError {
  return new ArgumentError("order", order, "an order whose poles the samples tell apart", "lower it");
}

/**
 * The order of least Bayesian information criterion, n ln(squares / n) + parameters ln n. See Schwarz 1978,
 * Ann. Stat. 6(2):461-464. A fit that is exact to rounding ends the search: more poles would only fit rounding.
 */
function fitOfBestOrder(samples: Float64Array, subspace: HankelSubspace, maxOrder: number): SinusoidFit | undefined {
  const count = samples.length;
  const power = samples.reduce((sum, value) => sum + value * value, 0);
  let best: SinusoidFit | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let order = 1; order <= maxOrder; order++) {
    const fit = fitOfOrder(samples, subspace, order);
    if (!fit) continue;
    const criterion = count * Math.log(fit.squares / count) + 2 * order * Math.log(count);
    if (fit.squares < 1e-20 * power) return fit;
    if (criterion < least) {
      least = criterion;
      best = fit;
    }
  }
  return best;
}

function energyOf({ sigma, a, b }: DampedSinusoid, count: number): number {
  const sum = Math.abs(sigma) < 1e-12 ? count : Math.expm1(2 * sigma * count) / Math.expm1(2 * sigma);
  return (a * a + b * b) * sum;
}

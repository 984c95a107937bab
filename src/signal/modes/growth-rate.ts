import { requirePositive, requireSamples, requireWhole } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { dot } from "../linear-algebra/dot.ts";
import { type Estimate, estimate } from "./mode.ts";

export interface GrowthRateOptions {
  /** Confidence of the interval; default 0.95. */
  readonly confidence?: number;
  /** Slow cosines through which the residuals are seen; default 6. Fewer suit a slower noise and widen the interval. */
  readonly cosines?: number;
}

/**
 * Rate of exponential growth (below zero, of decay) of an envelope, 1/s: the slope of its logarithm by least squares,
 * with weights that allow for noise to weigh less on a larger envelope.
 *
 * Neighbouring values of an envelope are far from independent. The standard error therefore comes from the residuals'
 * slow parts alone, those that could pass for a slope: each residual times its lever, projected on a few slow cosines,
 * with Student's t for as many degrees of freedom. It holds while the noise forgets itself within about a thirtieth of
 * the record.
 * @param envelope n values above zero, n of at least 4 x cosines; leave out ends that a filter or transform has spoiled
 * @param sampleRate samples per second, Hz
 * @throws SignalTooShortError; NotFiniteError; ArgumentError if a value is not above zero
 * @see Lazarus, Lewis, Stock & Watson 2018, J. Bus. Econ. Stat. 36(4):541-559; Sun 2013, Econom. J. 16(1):1-26
 */
export function growthRate(envelope: Float64Array, sampleRate: number, options: GrowthRateOptions = {}): Estimate {
  const { confidence, cosines = 6 } = options;
  requirePositive(sampleRate, "sampleRate");
  requireWhole(cosines, 2, "cosines");
  requireSamples(envelope, 4 * cosines, "envelope");
  for (const [i, value] of envelope.entries()) {
    if (!(value > 0))
      throw new ArgumentError(`envelope[${i}]`, value, "a value above 0", "cut the envelope where it vanishes");
  }
  const logs = envelope.map(Math.log);
  const even = fitLine(logs, new Float64Array(logs.length).fill(1));
  // Weights 1 / variance, and the variance goes by a power of the fitted envelope.
  const half = (noiseExponent(even) * even.slope) / 2;
  const fit = fitLine(
    logs,
    even.levers.map((lever) => Math.exp(half * lever)),
  );
  const noise = longRunVariance(fit, cosines);
  const standardError = Math.sqrt(noise / fit.spread) * sampleRate;
  return estimate(fit.slope * sampleRate, standardError, cosines, confidence);
}

/** A straight line fitted with weights; residuals and levers carry the square root of theirs. */
interface Line {
  readonly slope: number;
  readonly roots: Float64Array;
  readonly levers: Float64Array;
  readonly residuals: Float64Array;
  /** Sum of squared levers. */
  readonly spread: number;
}

/** @param roots square roots of the weights */
function fitLine(values: Float64Array, roots: Float64Array): Line {
  let [total, time, level] = [0, 0, 0];
  for (let t = 0; t < values.length; t++) {
    const weight = roots[t]! ** 2;
    total += weight;
    time += weight * t;
    level += weight * values[t]!;
  }
  const middle = time / total;
  const levers = roots.map((root, t) => root * (t - middle));
  let [spread, slope] = [0, 0];
  for (let t = 0; t < values.length; t++) {
    spread += levers[t]! ** 2;
    slope += levers[t]! * roots[t]! * values[t]!;
  }
  slope /= spread;
  const residuals = roots.map((root, t) => root * (values[t]! - level / total - slope * (t - middle)));
  return { slope, roots, levers, residuals, spread };
}

/**
 * How the noise of the logarithm shrinks as the envelope grows: its variance goes by envelope^-exponent. 2 for noise that
 * is added to the oscillation, 0 for one that moves its amplitude in proportion; found from the residuals.
 */
function noiseExponent({ residuals, levers, slope }: Line): number {
  let [product, square] = [0, 0];
  for (let t = 0; t < residuals.length; t++) {
    const height = slope * levers[t]!;
    product += height * Math.log(Math.max(residuals[t]! ** 2, 1e-300));
    square += height * height;
  }
  return square > 0 ? Math.min(2, Math.max(0, -product / square)) : 0;
}

/**
 * Long-run variance of the noise: the mean square of the residuals' projections on lever x cosine, for the first few
 * cosines, made orthonormal to level, slope and each other. White noise of variance 1 gives chi-square / cosines.
 */
function longRunVariance({ roots, levers, residuals }: Line, cosines: number): number {
  const count = residuals.length;
  const basis = [scaledToUnit(roots), scaledToUnit(levers)];
  let sum = 0;
  for (let k = 1; k <= cosines; k++) {
    const column = levers.map((lever, t) => lever * Math.cos((Math.PI * k * (t + 0.5)) / count));
    for (const other of basis) {
      const shared = dot(other, column);
      for (let t = 0; t < count; t++) column[t] = column[t]! - shared * other[t]!;
    }
    basis.push(scaledToUnit(column));
    sum += dot(basis[basis.length - 1]!, residuals) ** 2;
  }
  return sum / cosines;
}

function scaledToUnit(column: Float64Array): Float64Array {
  const length = Math.sqrt(dot(column, column));
  return column.map((value) => value / length);
}

import { requirePositive, requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { leastSquares } from "../linear-algebra/least-squares.ts";
import { type Estimate, estimate } from "./mode.ts";

export interface LogarithmicDecrement {
  /** Natural logarithm of the ratio of one peak to the next, one full cycle later. */
  readonly decrement: number;
  /** decrement / sqrt(4 pi² + decrement²). */
  readonly dampingRatio: number;
  /** 1 / (2 damping ratio). */
  readonly qualityFactor: number;
}

/**
 * Damping of a free oscillation from two of its peaks.
 * @param cycles full cycles from one to the other: from the first peak to the hundredth it is 99
 * @see Rao, Mechanical Vibrations, section 2.6
 */
export function logarithmicDecrement(first: number, last: number, cycles: number): LogarithmicDecrement {
  requirePositive(first, "first");
  requirePositive(last, "last");
  requirePositive(cycles, "cycles");
  return withDamping(Math.log(first / last) / cycles);
}

/**
 * The same from a whole row of peaks, one each cycle: the slope of their logarithms, with its interval.
 * @param peaks at least 3, all above zero (their height above rest)
 * @param options confidence, default 0.95
 */
export function logarithmicDecrementOfPeaks(
  peaks: Float64Array,
  options: { confidence?: number } = {},
): LogarithmicDecrement & { readonly interval: Estimate } {
  requireSamples(peaks, 3, "peaks");
  for (const [i, peak] of peaks.entries())
    if (!(peak > 0)) throw new ArgumentError(`peaks[${i}]`, peak, "a height above 0");
  const design = [new Float64Array(peaks.length).fill(1), peaks.map((_, i) => i)];
  const fit = leastSquares(design, peaks.map(Math.log));
  const decrement = -fit.coefficients[1]!;
  const interval = estimate(decrement, Math.sqrt(fit.covariance.data[3]!), fit.degreesOfFreedom, options.confidence);
  return { ...withDamping(decrement), interval };
}

function withDamping(decrement: number): LogarithmicDecrement {
  const dampingRatio = decrement / Math.hypot(2 * Math.PI, decrement);
  return { decrement, dampingRatio, qualityFactor: 1 / (2 * dampingRatio) };
}

import { requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";

/**
 * Quantiles with linear interpolation between order statistics (type 7 of Hyndman & Fan, the usual default).
 * @param values n finite values in any order; read, never written
 * @param probabilities each from 0 to 1
 * @returns one value for each probability
 * @throws SignalTooShortError if there are no values; NotFiniteError; ArgumentError
 * @see Hyndman & Fan 1996, Am. Stat. 50(4):361-365
 */
export function quantiles(values: Float64Array, probabilities: ArrayLike<number>): Float64Array {
  requireSamples(values, 1, "values");
  const sorted = values.slice().sort();
  return Float64Array.from(probabilities, (probability) => quantileOfSorted(sorted, probability));
}

/** One quantile; see `quantiles`. */
export function quantile(values: Float64Array, probability: number): number {
  return quantiles(values, [probability])[0]!;
}

export function median(values: Float64Array): number {
  return quantile(values, 0.5);
}

/** A quantile of values already in rising order. */
export function quantileOfSorted(sorted: Float64Array, probability: number): number {
  if (!(probability >= 0 && probability <= 1))
    throw new ArgumentError("probability", probability, "a number from 0 to 1");
  const place = probability * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}

import quickselect from "quickselect";
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
  const wanted = Array.from(probabilities);
  const arranged = arrange(values, wanted);
  return Float64Array.from(wanted, (probability) => quantileOfSorted(arranged, probability));
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
  const { below, above, part } = placeOf(probability, sorted.length);
  return sorted[below]! + part * (sorted[above]! - sorted[below]!);
}

function placeOf(probability: number, count: number) {
  if (!(probability >= 0 && probability <= 1))
    throw new ArgumentError("probability", probability, "a number from 0 to 1");
  const place = probability * (count - 1);
  const below = Math.floor(place);
  return { below, above: Math.min(below + 1, count - 1), part: place - below };
}

/** A copy in which the places that the quantiles read hold what they would hold if it were sorted. */
function arrange(values: Float64Array, probabilities: readonly number[]): Float64Array {
  const arranged = values.slice();
  const places = new Set<number>();
  for (const probability of probabilities) {
    const { below, above } = placeOf(probability, values.length);
    places.add(below).add(above);
  }
  let left = 0;
  for (const place of [...places].sort((a, b) => a - b)) {
    // It only swaps and compares, which a typed array takes as well as a plain one.
    quickselect(arranged as unknown as number[], place, left);
    left = place + 1;
  }
  return arranged;
}

import { requireFinite, requireWhole } from "../checks.ts";
import { magnitude } from "../complex-array.ts";
import { analyticSignal } from "./analytic-signal.ts";

export interface EnvelopeOptions {
  /** Samples over which the running median is taken, odd; default 1: none. About two periods suits. */
  readonly medianLength?: number;
}

/**
 * Envelope of an oscillation: the magnitude of its analytic signal, and of that a running median, so that a single
 * bump or dropout does not show. At the ends the median runs over what there is.
 * @param samples n values of a signal of one dominant frequency
 * @returns n values of at least 0, in the unit of the samples
 */
export function robustEnvelope(samples: Float64Array, options: EnvelopeOptions = {}): Float64Array {
  const { medianLength = 1 } = options;
  requireWhole(medianLength, 1, "medianLength");
  const envelope = magnitude(analyticSignal(samples));
  return medianLength === 1 ? envelope : runningMedian(envelope, medianLength);
}

/**
 * Median of the values within (length - 1) / 2 samples of each; near the ends, of fewer.
 * @param length odd; an even one counts as the next odd one
 * @see Tukey 1977, Exploratory Data Analysis, chapter 7
 */
export function runningMedian(values: Float64Array, length: number): Float64Array {
  requireWhole(length, 1, "length");
  requireFinite(values, "values");
  const reach = Math.floor(length / 2);
  const out = new Float64Array(values.length);
  const sorted = new Float64Array(2 * reach + 1);
  let count = 0;
  for (let i = -reach; i < values.length; i++) {
    const entering = i + reach;
    const leaving = i - reach - 1;
    if (leaving >= 0) count = remove(sorted, count, values[leaving]!);
    if (entering < values.length) count = insert(sorted, count, values[entering]!);
    if (i >= 0) out[i] = (sorted[(count - 1) >> 1]! + sorted[count >> 1]!) / 2;
  }
  return out;
}

/** Place of the first of `count` sorted values that is not below `value`. */
function placeOf(sorted: Float64Array, count: number, value: number): number {
  let low = 0;
  for (let high = count; low < high; ) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function insert(sorted: Float64Array, count: number, value: number): number {
  const place = placeOf(sorted, count, value);
  sorted.copyWithin(place + 1, place, count);
  sorted[place] = value;
  return count + 1;
}

function remove(sorted: Float64Array, count: number, value: number): number {
  const place = placeOf(sorted, count, value);
  sorted.copyWithin(place, place + 1, count);
  return count - 1;
}

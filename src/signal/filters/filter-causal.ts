import { requireFinite } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { type SecondOrderSections, section } from "./second-order-sections.ts";

export interface CausalOptions {
  /** Two numbers a section to begin with, as from `steadyState`; default all zero: silence before the first sample. */
  readonly initialState?: Float64Array;
}

/**
 * Filters forward in time, as a flight controller would: the result lags the signal.
 * @param filter second-order sections
 * @param samples n values; read, never written
 * @returns n values
 * @throws NotFiniteError; ArgumentError if the state does not fit the filter
 */
export function filterCausal(
  filter: SecondOrderSections,
  samples: Float64Array,
  options: CausalOptions = {},
): Float64Array {
  requireFinite(samples, "samples");
  const state = options.initialState?.slice() ?? new Float64Array(2 * filter.sections);
  if (state.length !== 2 * filter.sections) {
    throw new ArgumentError("initialState", `${state.length} numbers`, `two a section (${2 * filter.sections})`);
  }
  const out = samples.slice();
  runSections(filter, out, state);
  return out;
}

/** Filters in place, section after section; the state (two numbers a section) goes on from call to call. */
export function runSections(filter: SecondOrderSections, samples: Float64Array, state: Float64Array): void {
  for (let s = 0; s < filter.sections; s++) {
    const [b0, b1, b2, a1, a2] = section(filter, s);
    let z1 = state[2 * s]!;
    let z2 = state[2 * s + 1]!;
    // Transposed direct form II: two numbers of memory, and good manners in floating point.
    for (let i = 0; i < samples.length; i++) {
      const x = samples[i]!;
      const y = b0 * x + z1;
      z1 = b1 * x - a1 * y + z2;
      z2 = b2 * x - a2 * y;
      samples[i] = y;
    }
    state[2 * s] = z1;
    state[2 * s + 1] = z2;
  }
}

/**
 * The state in which the filter has seen the value 1 for ever: start from this times the first sample, and no step
 * response rings at the beginning.
 */
export function steadyState(filter: SecondOrderSections): Float64Array {
  const state = new Float64Array(2 * filter.sections);
  let level = 1;
  for (let s = 0; s < filter.sections; s++) {
    const [b0, b1, b2, a1, a2] = section(filter, s);
    const gain = (b0 + b1 + b2) / (1 + a1 + a2);
    state[2 * s] = level * (gain - b0);
    state[2 * s + 1] = level * (b2 - a2 * gain);
    level *= gain;
  }
  return state;
}

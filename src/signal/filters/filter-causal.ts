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

/** Filters in place; the state (two numbers a section) goes on from call to call. */
export function runSections(filter: SecondOrderSections, samples: Float64Array, state: Float64Array): void {
  for (let s = 0; s < filter.sections; s += 2) runPair(filter, s, samples, state);
}

/**
 * Runs sections s and s + 1 (or s alone) in one pass. Each number waits for the one before; two sections side by side
 * fill the time that one would spend waiting.
 */
function runPair(filter: SecondOrderSections, s: number, samples: Float64Array, state: Float64Array): void {
  const isPair = s + 1 < filter.sections;
  const [b0, b1, b2, a1, a2] = section(filter, s);
  const [d0, d1, d2, c1, c2] = isPair ? section(filter, s + 1) : [1, 0, 0, 0, 0];
  let z1 = state[2 * s]!;
  let z2 = state[2 * s + 1]!;
  let w1 = isPair ? state[2 * s + 2]! : 0;
  let w2 = isPair ? state[2 * s + 3]! : 0;
  // Transposed direct form II: two numbers of memory a section, and good manners in floating point. The output
  // y = b0 x + z1 is put into what becomes of the memory, which keeps the chain from one sample to the next short.
  const [p1, p2] = [b1 - a1 * b0, b2 - a2 * b0];
  const [q1, q2] = [d1 - c1 * d0, d2 - c2 * d0];
  for (let i = 0; i < samples.length; i++) {
    const x = samples[i]!;
    const y = b0 * x + z1;
    const z = p1 * x + z2 - a1 * z1;
    z2 = p2 * x - a2 * z1;
    z1 = z;
    const v = d0 * y + w1;
    const w = q1 * y + w2 - c1 * w1;
    w2 = q2 * y - c2 * w1;
    w1 = w;
    samples[i] = v;
  }
  state[2 * s] = z1;
  state[2 * s + 1] = z2;
  if (!isPair) return;
  state[2 * s + 2] = w1;
  state[2 * s + 3] = w2;
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

import { requireSamples, requireWhole } from "../checks.ts";
import { runSections, steadyState } from "./filter-causal.ts";
import { type SecondOrderSections, section } from "./second-order-sections.ts";

export interface ZeroPhaseOptions {
  /** Samples by which each end is continued, mirrored through the end point; default three filter lengths. */
  readonly padding?: number;
}

/**
 * Filters forward and then backward: no lag, and twice the attenuation in dB (6 dB at the cut-off of a Butterworth
 * filter). Each end is continued by its odd reflection, so that a level or a trend passes the ends undisturbed.
 * @param filter second-order sections
 * @param samples n values; read, never written. Several stretches are filtered one call each.
 * @param options padding (samples)
 * @returns n values
 * @throws SignalTooShortError unless n exceeds the padding; NotFiniteError
 * @see Gustafsson 1996, IEEE Trans. Signal Process. 44(4):988-992
 */
export function filterZeroPhase(
  filter: SecondOrderSections,
  samples: Float64Array,
  options: ZeroPhaseOptions = {},
): Float64Array {
  const { padding = defaultPadding(filter) } = options;
  requireWhole(padding, 0, "padding");
  requireSamples(samples, padding + 1, "samples", "lower the filter's order or pass a longer stretch");
  const count = samples.length;
  const extended = new Float64Array(count + 2 * padding);
  extended.set(samples, padding);
  for (let i = 1; i <= padding; i++) {
    extended[padding - i] = 2 * samples[0]! - samples[i]!;
    extended[padding + count - 1 + i] = 2 * samples[count - 1]! - samples[count - 1 - i]!;
  }
  const settled = steadyState(filter);
  for (let pass = 0; pass < 2; pass++) {
    const first = extended[0]!;
    runSections(
      filter,
      extended,
      settled.map((value) => value * first),
    );
    extended.reverse();
  }
  return extended.subarray(padding, padding + count);
}

/** Three times the length of the filter's difference equation, less roots at the origin. */
function defaultPadding(filter: SecondOrderSections): number {
  let zeroNumerators = 0;
  let zeroDenominators = 0;
  for (let s = 0; s < filter.sections; s++) {
    const [, , b2, , a2] = section(filter, s);
    if (b2 === 0) zeroNumerators++;
    if (a2 === 0) zeroDenominators++;
  }
  return 3 * (2 * filter.sections + 1 - Math.min(zeroNumerators, zeroDenominators));
}

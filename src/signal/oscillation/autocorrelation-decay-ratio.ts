import { requireSamples, requireWhole } from "../checks.ts";
import { autocorrelation } from "../statistics/autocorrelation.ts";

export interface AutocorrelationDecay {
  /** 1 for an undamped oscillation, 0 for none; above 0.5 the loop oscillates more than a quarter-decay response. */
  readonly decayRatio: number;
  /** From the autocorrelation's start to its first maximum, samples. */
  readonly period: number;
}

/**
 * Decay ratio of the autocorrelation: the height of its first maximum above the line through the first two minima,
 * over the depth of the first minimum below the line from lag 0 to the first maximum.
 * Filter out other frequencies first: any ripple counts as an extremum.
 * @param samples n values, n of at least 16
 * @param options maxLag, default half the samples
 * @returns undefined if the autocorrelation has no second minimum
 * @see Miao & Seborg 1999, Proc. IEEE Conf. Control Applications, Hawaii, 1:455-460
 */
export function autocorrelationDecayRatio(
  samples: Float64Array,
  options: { maxLag?: number } = {},
): AutocorrelationDecay | undefined {
  requireSamples(samples, 16);
  const { maxLag = samples.length >> 1 } = options;
  requireWhole(maxLag, 4, "maxLag", samples.length - 1);
  return decayRatioOf(autocorrelation(samples, maxLag));
}

/** The same of a given autocorrelation, from lag 0 on. */
export function decayRatioOf(rho: Float64Array): AutocorrelationDecay | undefined {
  const extrema: { lag: number; value: number }[] = [];
  for (let k = 1; k + 1 < rho.length && extrema.length < 3; k++) {
    const sign = extrema.length % 2 === 0 ? -1 : 1;
    const [before, middle, after] = [sign * rho[k - 1]!, sign * rho[k]!, sign * rho[k + 1]!];
    if (!(middle > before && middle >= after)) continue;
    // The vertex of the parabola through the three.
    const offset = (before - after) / (2 * (before - 2 * middle + after));
    extrema.push({ lag: k + offset, value: sign * (middle - ((before - after) * offset) / 4) });
  }
  const [firstMinimum, maximum, secondMinimum] = extrema;
  if (!firstMinimum || !maximum || !secondMinimum) return undefined;
  const height = maximum.value - lineAt(maximum.lag, firstMinimum, secondMinimum);
  const depth = lineAt(firstMinimum.lag, { lag: 0, value: rho[0]! }, maximum) - firstMinimum.value;
  return { decayRatio: height / depth, period: maximum.lag };
}

interface Point {
  readonly lag: number;
  readonly value: number;
}

function lineAt(lag: number, a: Point, b: Point): number {
  return a.value + ((lag - a.lag) * (b.value - a.value)) / (b.lag - a.lag);
}

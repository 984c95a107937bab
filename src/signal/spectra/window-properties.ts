import { requireBetween, requireSamples } from "../checks.ts";

/** What a window does to a spectrum. */
export interface WindowProperties {
  /** Mean weight: the factor by which a sine's amplitude comes out lower. */
  readonly coherentGain: number;
  /** Width in bins of the ideal filter that would pass as much white noise. */
  readonly noiseBandwidth: number;
  /** How far a sine midway between two bins reads low, dB. */
  readonly scallopLoss: number;
}

/**
 * Coherent gain, equivalent noise bandwidth and scallop loss of a window.
 * @param weights one weight a sample
 * @see Harris 1978, Proc. IEEE 66(1):51-83, equations 11 and 13
 */
export function windowProperties(weights: Float64Array): WindowProperties {
  requireSamples(weights, 1, "weights");
  const count = weights.length;
  let sum = 0;
  let squares = 0;
  let halfBinRe = 0;
  let halfBinIm = 0;
  for (let n = 0; n < count; n++) {
    const weight = weights[n]!;
    sum += weight;
    squares += weight * weight;
    halfBinRe += weight * Math.cos((Math.PI * n) / count);
    halfBinIm += weight * Math.sin((Math.PI * n) / count);
  }
  return {
    coherentGain: sum / count,
    noiseBandwidth: (count * squares) / (sum * sum),
    scallopLoss: -20 * Math.log10(Math.hypot(halfBinRe, halfBinIm) / Math.abs(sum)),
  };
}

/**
 * Correlation of the transforms of two windowed stretches of white noise that lie `step` samples apart.
 * @returns 1 for no step, 0 for a step of the window's length or more
 * @see Harris 1978, Proc. IEEE 66(1):51-83, equation 17
 */
export function overlapCorrelation(weights: Float64Array, step: number): number {
  requireBetween(step, -1, Number.POSITIVE_INFINITY, "step");
  let product = 0;
  let squares = 0;
  for (let n = 0; n < weights.length; n++) {
    squares += weights[n]! ** 2;
    if (n + step < weights.length) product += weights[n]! * weights[n + step]!;
  }
  return product / squares;
}

import { requirePositive, requireSameLength, requireSamples, requireWhole } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { trigamma } from "../statistics/gamma.ts";

export interface SpectralPeakOptions {
  /** Search from this frequency, Hz; default the first bin that has `reach` bins below it and is not 0. */
  readonly from?: number;
  /** Search to this frequency, Hz; default the last bin that has `reach` bins above it. */
  readonly to?: number;
  /** Bins on either side of the highest through which the parabola goes; default 1. For a peak of noise take about
   * half its half-power width: its shape then counts, and not which bin happens to stick out. */
  readonly reach?: number;
  /** Of the density's chi-square distribution; gives the standard error. Default: none is given (NaN). */
  readonly degreesOfFreedom?: number;
}

export interface SpectralPeak {
  /** Between bins, Hz. */
  readonly frequency: number;
  /** Standard error of the frequency, Hz; for a smooth peak of noise, not for a line (see `toneEstimate`). */
  readonly frequencyError: number;
  /** Density at the peak, u²/Hz. */
  readonly density: number;
  /** The bin in the middle of the parabola. */
  readonly bin: number;
}

/** Correlation of a density one and two bins apart under a Hann window; log densities share nearly as much. */
const hannNeighbours = [1, 4 / 9, 1 / 36];

/**
 * The highest peak of a spectrum, placed between bins by a parabola through the logarithms of some bins.
 * The error supposes a Hann window and a reach of about half the half-power width; it comes out some 10 to 25 % low,
 * since the parabola sits where the noise, too, is high. `autoregressiveModes` gives intervals that hold.
 * @param frequency evenly spaced, Hz
 * @param density as many values, none below zero
 * @returns undefined if the density has no peak in the range
 * @throws ArgumentError if the lengths differ or the range is empty; SignalTooShortError; NotFiniteError
 * @see Gasior & Gonzalez 2004, AIP Conf. Proc. 732:276-285
 */
export function spectralPeak(
  frequency: Float64Array,
  density: Float64Array,
  options: SpectralPeakOptions = {},
): SpectralPeak | undefined {
  const { reach = 1, degreesOfFreedom } = options;
  requireWhole(reach, 1, "reach");
  requireSamples(density, 2 * reach + 2, "density", "lower reach");
  requireSameLength(frequency, density, "density");
  const { from = frequency[Math.max(1, reach)]!, to = frequency[frequency.length - 1 - reach]! } = options;
  if (degreesOfFreedom !== undefined) requirePositive(degreesOfFreedom, "degreesOfFreedom");
  if (!(from <= to)) throw new ArgumentError("from", from, `at most \`to\` (${to})`);
  const logs = density.map((value) => Math.log(Math.max(value, 1e-300)));
  let bin = highestBin(summed(density, reach - 1), frequency, reach, from, to);
  if (bin < 0) return undefined;
  // A parabola's top well off its middle: once more, about the bin nearest to the top.
  const shift = Math.round(Math.max(-reach, Math.min(reach, parabola(logs, bin, reach).offset)));
  bin = Math.max(reach, Math.min(density.length - 1 - reach, bin + shift));
  const width = frequency[1]! - frequency[0]!;
  const { offset, error, top } = parabola(logs, bin, reach);
  if (!(Math.abs(offset) <= reach)) return undefined;
  const deviation = degreesOfFreedom === undefined ? Number.NaN : Math.sqrt(trigamma(degreesOfFreedom / 2));
  return {
    frequency: frequency[bin]! + offset * width,
    frequencyError: width * error * deviation,
    density: Math.exp(top),
    bin,
  };
}

/** Sum over the bins within `reach` of each. */
function summed(density: Float64Array, reach: number): Float64Array {
  return density.map((_, k) => {
    let sum = 0;
    for (let i = Math.max(0, k - reach); i <= Math.min(density.length - 1, k + reach); i++) sum += density[i]!;
    return sum;
  });
}

/** The highest bin in the range that is a peak, -1 if there is none. */
function highestBin(density: Float64Array, frequency: Float64Array, reach: number, from: number, to: number): number {
  let bin = -1;
  for (let k = Math.max(1, reach); k < density.length - reach; k++) {
    if (frequency[k]! < from || frequency[k]! > to) continue;
    const isPeak = density[k]! > density[k - 1]! && density[k]! >= density[k + 1]!;
    if (isPeak && (bin < 0 || density[k]! > density[bin]!)) bin = k;
  }
  return bin;
}

/** Least-squares parabola about one bin: place and height of its top, and the place's error for values of variance 1. */
function parabola(logs: Float64Array, bin: number, reach: number) {
  const count = 2 * reach + 1;
  const meanSquare = (reach * (reach + 1)) / 3;
  let [mean, slope, curvature, squares, fourths] = [0, 0, 0, 0, 0];
  for (let x = -reach; x <= reach; x++) {
    const value = logs[bin + x]!;
    mean += value / count;
    slope += x * value;
    squares += x * x;
    curvature += (x * x - meanSquare) * value;
    fourths += (x * x - meanSquare) ** 2;
  }
  slope /= squares;
  curvature /= fourths;
  const offset = -slope / (2 * curvature);
  const top = mean - curvature * meanSquare + (slope * offset) / 2;
  // d offset / d value, with neighbouring bins correlated.
  let variance = 0;
  const gradient = (x: number) =>
    -x / squares / (2 * curvature) - (offset / curvature) * ((x * x - meanSquare) / fourths);
  for (let x = -reach; x <= reach; x++) {
    for (let y = Math.max(-reach, x - 2); y <= Math.min(reach, x + 2); y++) {
      variance += gradient(x) * gradient(y) * hannNeighbours[Math.abs(x - y)]!;
    }
  }
  return { offset, curvature, top, error: Math.sqrt(Math.max(0, variance)) };
}

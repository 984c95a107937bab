import { requirePositive, requireSameLength, requireSamples } from "../checks.ts";
import { ArgumentError } from "../errors.ts";
import { trigamma } from "../statistics/gamma.ts";

export interface SpectralPeakOptions {
  /** Search from this frequency, Hz; default the second bin. */
  readonly from?: number;
  /** Search to this frequency, Hz; default the last bin but one. */
  readonly to?: number;
  /** Of the density's chi-square distribution; gives the standard errors. Default: none are given (NaN). */
  readonly degreesOfFreedom?: number;
}

export interface SpectralPeak {
  /** Between bins, Hz. */
  readonly frequency: number;
  /** Standard error of the frequency, Hz; meant for a broad peak of noise, not for a line (see `toneEstimate`). */
  readonly frequencyError: number;
  /** Density at the peak, u²/Hz. */
  readonly density: number;
  /** The highest bin. */
  readonly bin: number;
}

/**
 * The highest peak of a spectrum, placed between bins by a parabola through the logarithm of three bins.
 * @param frequency evenly spaced, Hz
 * @param density as many values above zero
 * @returns undefined if no bin in the range is higher than both its neighbours
 * @throws ArgumentError if the lengths differ or the range holds no bin
 * @see Gasior & Gonzalez 2004, AIP Conf. Proc. 732:276-285
 */
export function spectralPeak(
  frequency: Float64Array,
  density: Float64Array,
  options: SpectralPeakOptions = {},
): SpectralPeak | undefined {
  requireSamples(density, 3, "density");
  requireSameLength(frequency, density, "density");
  const { from = frequency[1]!, to = frequency[frequency.length - 2]!, degreesOfFreedom } = options;
  if (degreesOfFreedom !== undefined) requirePositive(degreesOfFreedom, "degreesOfFreedom");
  if (!(from <= to)) throw new ArgumentError("from", from, `at most \`to\` (${to})`);
  let bin = -1;
  for (let k = 1; k < density.length - 1; k++) {
    if (frequency[k]! < from || frequency[k]! > to) continue;
    const isPeak = density[k]! > density[k - 1]! && density[k]! >= density[k + 1]!;
    if (isPeak && (bin < 0 || density[k]! > density[bin]!)) bin = k;
  }
  if (bin < 0) return undefined;
  const width = frequency[1]! - frequency[0]!;
  const [before, middle, after] = [-1, 0, 1].map((offset) => Math.log(Math.max(density[bin + offset]!, 1e-300)));
  const curvature = before! - 2 * middle! + after!;
  const offset = curvature < 0 ? (before! - after!) / (2 * curvature) : 0;
  return {
    frequency: frequency[bin]! + offset * width,
    frequencyError:
      degreesOfFreedom === undefined ? Number.NaN : width * offsetError(offset, curvature, degreesOfFreedom),
    density: Math.exp(middle! - ((before! - after!) * offset) / 4),
    bin,
  };
}

/** By the delta method, from three independent logarithms of chi-square variables, whose variance is trigamma(nu / 2). */
function offsetError(offset: number, curvature: number, degreesOfFreedom: number): number {
  const gradients = [(1 - 2 * offset) / (2 * curvature), (2 * offset) / curvature, (-1 - 2 * offset) / (2 * curvature)];
  return Math.sqrt(trigamma(degreesOfFreedom / 2)) * Math.hypot(...gradients);
}

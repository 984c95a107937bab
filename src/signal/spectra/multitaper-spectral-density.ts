import { requireFinite, requirePositive, requireWhole } from "../checks.ts";
import { SignalTooShortError } from "../errors.ts";
import { nextPowerOfTwo } from "../fourier/next-power-of-two.ts";
import { realSpectrumPlan } from "../fourier/real-spectrum.ts";
import { addPower, type SpectralDensity, withInterval } from "./power-spectral-density.ts";
import { type Stretches, stretchesOf } from "./segments.ts";

export interface MultitaperOptions {
  /** Tapers for each stretch; default 5. More is smoother and coarser: the bandwidth is (tapers + 1) / (2 x duration). */
  readonly tapers?: number;
  /** Confidence of the interval; default 0.95. */
  readonly confidence?: number;
  /** Length of the transform; default the next power of two at or above the longest stretch. */
  readonly transformLength?: number;
}

export interface MultitaperDensity extends SpectralDensity {
  /** Frequencies closer than this are not told apart, Hz; that of the longest stretch. */
  readonly bandwidth: number;
}

/**
 * One-sided power spectral density of stretches too short for Welch's method: each stretch is seen through several
 * orthogonal sine tapers and the periodograms are averaged, a stretch counting by its length. The mean of each stretch
 * is taken off first. The transform is padded with zeros, which interpolates the spectrum and adds no resolution.
 * @param samples n uniformly spaced values in some unit u, or several such stretches; none is joined to another
 * @param sampleRate samples per second, Hz
 * @returns as `powerSpectralDensity`, on transformLength / 2 + 1 frequencies; `segments` counts tapered stretches
 * @throws SignalTooShortError if a stretch has no more samples than there are tapers; NotFiniteError; ArgumentError
 * @see Riedel & Sidorenko 1995, IEEE Trans. Signal Process. 43(1):188-195
 */
export function multitaperSpectralDensity(
  samples: Stretches,
  sampleRate: number,
  options: MultitaperOptions = {},
): MultitaperDensity {
  const { tapers = 5, confidence = 0.95 } = options;
  requirePositive(sampleRate, "sampleRate");
  requireWhole(tapers, 1, "tapers");
  const stretches = stretchesOf(samples);
  const longest = Math.max(0, ...stretches.map((stretch) => stretch.length));
  if (longest === 0) throw new SignalTooShortError("samples", 0, tapers + 1);
  const length = options.transformLength ?? nextPowerOfTwo(longest);
  requireWhole(length, longest, "transformLength");
  const spectrum = realSpectrumPlan(length);
  const density = new Float64Array(Math.floor(length / 2) + 1);
  let total = 0;
  let squares = 0;
  for (const stretch of stretches) {
    if (stretch.length <= tapers) throw new SignalTooShortError("samples", stretch.length, tapers + 1, "lower tapers");
    requireFinite(stretch, "samples");
    const mean = stretch.reduce((sum, value) => sum + value, 0) / stretch.length;
    // Tapers have unit power, so a density wants no division by the length; a longer stretch then weighs more by it.
    const weight = Math.sqrt(stretch.length);
    for (let taper = 1; taper <= tapers; taper++) {
      spectrum.samples.fill(0);
      for (let n = 0; n < stretch.length; n++) {
        spectrum.samples[n] = weight * (stretch[n]! - mean) * sineTaper(taper, n, stretch.length);
      }
      spectrum.run();
      addPower(density, spectrum.re, spectrum.im);
    }
    total += tapers * stretch.length;
    squares += tapers * stretch.length ** 2;
  }
  for (let k = 0; k < density.length; k++) {
    const isUnpaired = k === 0 || (length % 2 === 0 && k === length / 2);
    density[k] = (density[k]! * (isUnpaired ? 1 : 2)) / (total * sampleRate);
  }
  return {
    frequency: Float64Array.from(density, (_, k) => (k * sampleRate) / length),
    ...withInterval(density, (2 * total ** 2) / squares, confidence),
    segments: tapers * stretches.length,
    bandwidth: ((tapers + 1) * sampleRate) / (2 * (longest + 1)),
  };
}

function sineTaper(order: number, n: number, length: number): number {
  return Math.sqrt(2 / (length + 1)) * Math.sin((Math.PI * order * (n + 1)) / (length + 1));
}

import ndarray, { type NdArray } from "ndarray";
import { ArgumentError } from "../errors.ts";
import { realSpectrumPlan } from "../fourier/real-spectrum.ts";
import { type SegmentOptions, type Stretches, segmentation, stretchesOf, transformSegment } from "./segments.ts";

export interface ShortTimeOptions extends SegmentOptions {
  /** When each stretch begins, s; default: the first at 0 and each next one right after the one before. */
  readonly startTimes?: readonly number[];
}

/** Spectral densities of short frames, one after another. */
export interface ShortTimeSpectra {
  /** Middle of each frame, s. */
  readonly time: Float64Array;
  /** Hz. */
  readonly frequency: Float64Array;
  /** u²/Hz; shape [frames, frequencies]. */
  readonly density: NdArray<Float64Array>;
}

/**
 * One-sided power spectral density of each of many short frames (a spectrogram). No frame crosses a gap.
 * @param samples n uniformly spaced values in some unit u, or several such stretches
 * @param sampleRate samples per second, Hz
 * @param options as for `powerSpectralDensity`, and startTimes
 * @throws SignalTooShortError if no stretch holds a frame; NotFiniteError; ArgumentError
 * @see Allen & Rabiner 1977, Proc. IEEE 65(11):1558-1564
 */
export function shortTimeSpectra(
  samples: Stretches,
  sampleRate: number,
  options: ShortTimeOptions = {},
): ShortTimeSpectra {
  const plan = segmentation(samples, sampleRate, options);
  const stretches = stretchesOf(samples);
  const starts = options.startTimes ?? followingStarts(stretches, sampleRate);
  if (starts.length !== stretches.length) {
    throw new ArgumentError(
      "startTimes",
      `${starts.length} times`,
      `one for each of the ${stretches.length} stretches`,
    );
  }
  const frames = plan.counts.reduce((sum, count) => sum + count, 0);
  const bins = plan.frequency.length;
  const time = new Float64Array(frames);
  const density = new Float64Array(frames * bins);
  const spectrum = realSpectrumPlan(plan.length);
  let frame = 0;
  for (const [index, stretch] of stretches.entries()) {
    for (let segment = 0; segment < plan.counts[index]!; segment++, frame++) {
      const start = segment * plan.step;
      time[frame] = starts[index]! + (start + plan.length / 2) / sampleRate;
      transformSegment(stretch, start, plan, spectrum);
      writePower(density, frame * bins, spectrum.re, spectrum.im, 2 * plan.scale);
      // Frequency 0 and, in an even frame, the Nyquist frequency have no negative twin to be counted with.
      density[frame * bins] = density[frame * bins]! / 2;
      if (plan.length % 2 === 0) density[frame * bins + bins - 1] = density[frame * bins + bins - 1]! / 2;
    }
  }
  return { time, frequency: plan.frequency, density: ndarray(density, [frames, bins]) };
}

function writePower(out: Float64Array, offset: number, re: Float64Array, im: Float64Array, scale: number): void {
  for (let k = 0; k < re.length; k++) out[offset + k] = scale * (re[k]! * re[k]! + im[k]! * im[k]!);
}

function followingStarts(stretches: readonly Float64Array[], sampleRate: number): number[] {
  let samples = 0;
  return stretches.map((stretch) => {
    const start = samples / sampleRate;
    samples += stretch.length;
    return start;
  });
}

import { requireFinite, requirePositive, requireWhole } from "../checks.ts";
import { ArgumentError, SignalTooShortError } from "../errors.ts";
import { type RealSpectrumPlan, realSpectrumPlan } from "../fourier/real-spectrum.ts";
import { type WindowName, window } from "./window.ts";

/** Uniform samples: one stretch, or several with gaps between them. No segment ever crosses a gap. */
export type Stretches = Float64Array | readonly Float64Array[];

/** What is taken off each segment before its transform: its mean, its least-squares line, or nothing. */
export type Detrend = "constant" | "linear" | "none";

export interface SegmentOptions {
  /** Samples in a segment; default 1024. A power of two is fastest, any length is exact. */
  readonly segmentLength?: number;
  /** Share of a segment that the next one covers again, 0 to below 1; default 0.5. */
  readonly overlap?: number;
  /** Default "hann". */
  readonly window?: WindowName;
  /** Default "constant". */
  readonly detrend?: Detrend;
}

/** How stretches are cut into segments, and the scratch for their transforms. */
export interface Segmentation {
  readonly length: number;
  readonly step: number;
  readonly weights: Float64Array;
  readonly detrend: Detrend;
  /** Segments in each stretch, in order; a stretch shorter than a segment has none. */
  readonly counts: readonly number[];
  /** Factor from |X|² to a one-sided density: at most bins twice this; at 0 and at the Nyquist bin once. */
  readonly scale: number;
  /** Frequencies of the bins, Hz. */
  readonly frequency: Float64Array;
}

export function stretchesOf(samples: Stretches): readonly Float64Array[] {
  return samples instanceof Float64Array ? [samples] : samples;
}

/** Settles the options against the samples, or says why it cannot. */
export function segmentation(samples: Stretches, sampleRate: number, options: SegmentOptions): Segmentation {
  const { segmentLength: length = 1024, overlap = 0.5, window: name = "hann", detrend = "constant" } = options;
  requirePositive(sampleRate, "sampleRate");
  requireWhole(length, 2, "segmentLength");
  if (!(overlap >= 0 && overlap < 1)) throw new ArgumentError("overlap", overlap, "a share from 0 to below 1");
  const step = Math.max(1, length - Math.floor(length * overlap));
  const stretches = stretchesOf(samples);
  for (const stretch of stretches) requireFinite(stretch, "samples");
  const counts = stretches.map((stretch) => Math.max(0, Math.floor((stretch.length - length) / step) + 1));
  if (!counts.some((count) => count > 0)) {
    const longest = Math.max(0, ...stretches.map((stretch) => stretch.length));
    throw new SignalTooShortError("samples", longest, length, "lower segmentLength or pass a longer stretch");
  }
  const weights = window(name, length);
  const power = weights.reduce((sum, weight) => sum + weight * weight, 0);
  const frequency = Float64Array.from({ length: Math.floor(length / 2) + 1 }, (_, k) => (k * sampleRate) / length);
  return { length, step, weights, detrend, counts, scale: 1 / (power * sampleRate), frequency };
}

/** Transforms the segment that begins at `start`; the result is in the plan's `re` and `im` until its next run. */
export function transformSegment(
  stretch: Float64Array,
  start: number,
  { length, weights, detrend }: Segmentation,
  plan: RealSpectrumPlan = realSpectrumPlan(length),
): RealSpectrumPlan {
  const scratch = plan.samples;
  let mean = 0;
  let slope = 0;
  if (detrend !== "none") {
    for (let i = 0; i < length; i++) mean += stretch[start + i]!;
    mean /= length;
  }
  const middle = (length - 1) / 2;
  if (detrend === "linear") {
    for (let i = 0; i < length; i++) slope += (i - middle) * stretch[start + i]!;
    slope *= 12 / (length * (length * length - 1));
  }
  for (let i = 0; i < length; i++) scratch[i] = (stretch[start + i]! - mean - slope * (i - middle)) * weights[i]!;
  plan.run();
  return plan;
}

/** Turns sums of |X|² or X conj(Y) over segments, in place, into a one-sided density. */
export function scaleOneSided(sums: Float64Array, { length, scale }: Segmentation, segments: number): Float64Array {
  const factor = scale / segments;
  for (let k = 0; k < sums.length; k++) {
    const isUnpaired = k === 0 || (length % 2 === 0 && k === length / 2);
    sums[k] = sums[k]! * (isUnpaired ? factor : 2 * factor);
  }
  return sums;
}

import type { Uniform } from "../../log/resample.ts";
import { decimate } from "../../signal/index.ts";

/** How strong one frequency was over time. All arrays are frames long. */
export interface ToneTrack {
  /** Hz */
  readonly frequency: number;
  /** s between frames */
  readonly step: number;
  /** s, middle of each frame */
  readonly time: Float64Array;
  /** amplitude of the tone that fits the frame best, in the unit of the motion */
  readonly amplitude: Float64Array;
  /** index of the piece that the frame lies in */
  readonly piece: Int32Array;
}

/** Cycles in a frame: enough to tell a tone from its neighbours a third away, few enough to see it begin. */
export const FRAME_CYCLES = 4;
/** Frames follow one another by half a cycle. */
const STEP_CYCLES = 0.5;
/** Frequencies to the octave: neighbours lie well within a frame's own resolution. */
const PER_OCTAVE = 8;

/**
 * Amplitude over time of every frequency in a range, with frames of a fixed number of cycles (Hann window): short
 * where motion is fast, long where it is slow. The signal is thinned octave by octave, so that each octave costs half
 * of the one above it.
 *
 * @param pieces stretches without a gap, all at `rate` Hz; no frame crosses a gap
 * @see Brown 1991, J. Acoust. Soc. Am. 89(1):425-434 (constant-Q transform)
 */
export function toneMap(pieces: readonly Uniform[], rate: number, lowest: number, highest: number): ToneTrack[] {
  const frequencies: number[] = [];
  for (let k = 0; highest * 2 ** (-k / PER_OCTAVE) >= lowest; k++) frequencies.push(highest * 2 ** (-k / PER_OCTAVE));
  let level: readonly (Uniform | null)[] = pieces;
  let levelRate = rate;
  const tracks: ToneTrack[] = [];
  for (const frequency of frequencies) {
    while (levelRate / 2 >= SAMPLES_PER_CYCLE * frequency) {
      level = level.map(halved);
      levelRate /= 2;
    }
    const track = toneTrack(level, levelRate, frequency);
    if (track.time.length > 0) tracks.push(track);
  }
  return tracks;
}

/** At least so many samples to the cycle remain after thinning, which keeps the thinning filter out of the way. */
const SAMPLES_PER_CYCLE = 6;
/** Samples that the thinning filter needs. */
const FEWEST = 60;

function halved(piece: Uniform | null): Uniform | null {
  if (piece === null || piece.values.length < FEWEST) return null;
  const { values, sampleRate } = decimate(piece.values, piece.rate, 2);
  return { start: piece.start, rate: sampleRate, values };
}

function toneTrack(pieces: readonly (Uniform | null)[], rate: number, frequency: number): ToneTrack {
  const length = Math.max(3, Math.round((FRAME_CYCLES / frequency) * rate));
  const hop = Math.max(1, Math.round((STEP_CYCLES / frequency) * rate));
  const wave = waveOf(length, frequency / rate);
  const framesOf = (piece: Uniform | null) =>
    piece === null ? 0 : Math.max(0, Math.floor((piece.values.length - length) / hop) + 1);
  const counts = pieces.map(framesOf);
  const frames = counts.reduce((sum, count) => sum + count, 0);
  const time = new Float64Array(frames);
  const amplitude = new Float64Array(frames);
  const owner = new Int32Array(frames);
  let first = 0;
  for (const [index, piece] of pieces.entries()) {
    const last = first + counts[index]!;
    if (piece === null || last === first) continue;
    owner.fill(index, first, last);
    writeMiddles(piece.start, rate, hop, length, time.subarray(first, last));
    writeAmplitudes(piece.values, hop, wave, amplitude.subarray(first, last));
    first = last;
  }
  return { frequency, step: hop / rate, time, amplitude, piece: owner };
}

/** A wave under a window: even about its middle in one part and odd in the other, so that half of each says all. */
interface Wave {
  readonly length: number;
  /** from the first sample on, up to the middle one of an odd length, which has no sine */
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
}

/** A wave of so many cycles a sample under a Hann window, for which a tone of its frequency sums up to its amplitude. */
function waveOf(length: number, frequency: number): Wave {
  const cosine = new Float64Array((length + 1) >> 1);
  const sine = new Float64Array(length >> 1);
  for (let n = 0; n < cosine.length; n++) {
    // The weights of the window add up to its length.
    const weight = (2 / length) * (1 - Math.cos((2 * Math.PI * (n + 0.5)) / length));
    const angle = 2 * Math.PI * frequency * (n - (length - 1) / 2);
    cosine[n] = weight * Math.cos(angle);
    if (n < sine.length) sine[n] = weight * Math.sin(angle);
  }
  return { length, cosine, sine };
}

/** s, middle of each frame. */
function writeMiddles(start: number, rate: number, hop: number, length: number, time: Float64Array): void {
  for (let frame = 0; frame < time.length; frame++) time[frame] = start + (frame * hop + (length - 1) / 2) / rate;
}

/** Size of the sum of values times wave, frame by frame; two at a time, because each sum waits for its last addition. */
function writeAmplitudes(values: Float64Array, hop: number, { length, cosine, sine }: Wave, amplitude: Float64Array) {
  const half = sine.length;
  const middle = cosine.length > half ? cosine[half]! : 0;
  const last = amplitude.length - 1;
  for (let frame = 0; frame <= last; frame += 2) {
    const from = frame * hop;
    // A last one without a partner is its own.
    const apart = frame < last ? hop : 0;
    let re = values[from + half]! * middle;
    let im = 0;
    let nextRe = values[from + apart + half]! * middle;
    let nextIm = 0;
    for (let n = 0, early = from, late = from + length - 1; n < half; n++, early++, late--) {
      const even = cosine[n]!;
      const odd = sine[n]!;
      re += (values[early]! + values[late]!) * even;
      im += (values[early]! - values[late]!) * odd;
      nextRe += (values[early + apart]! + values[late + apart]!) * even;
      nextIm += (values[early + apart]! - values[late + apart]!) * odd;
    }
    amplitude[frame] = Math.sqrt(re * re + im * im);
    if (apart > 0) amplitude[frame + 1] = Math.sqrt(nextRe * nextRe + nextIm * nextIm);
  }
}

import type { Series } from "../../log/channel.ts";
import { firstAtOrAfter } from "../../log/clock/first-at-or-after.ts";
import { median, window } from "../../signal/index.ts";
import type { IndexRange } from "../air-time.ts";
import { blocksOf } from "./blocks-of.ts";
import { integralOf } from "./integral-of.ts";

/** How well a tone keeps step with each of several drives. */
export interface CommandTones {
  /** peak amplitude of what follows each drive, in the signal's unit */
  readonly amplitudes: readonly number[];
  /** the same of what keeps its frequency, whatever the drives do */
  readonly steady: number;
  /** the same of all there is within a few hertz, steady in frequency or not, noise taken off */
  readonly whole: number;
  /** what noise gives by chance */
  readonly background: number;
}

/** s; a slower wander of the drives is not seen, a much longer block would not hold the battery's sinking still */
const BLOCK = 5;
const MOST_BLOCKS = 12;
/** Cycles from the middle of one slice of a block to the next: enough to keep slower swings out, few enough to turn with the rotor */
const HOP = 2.5;
/** Share of the frequency to both sides in which the tone's mean frequency of a block is looked for: batteries sink. */
const BESIDE = 0.05;
/** Hz; finer than a block resolves */
const STEP = 0.1;

/**
 * Order tracking without a rotor speed: a rotor's frequency goes with its drive (a command made proportional to speed),
 * by a factor that is not known. The signal is shifted down by the tone's frequency and cut into slices; the phase that
 * a drive's ups and downs would give is taken off, and what then stands still adds up. Only for the drive that the tone
 * follows does it stand still. A tone that the sample rate folded down runs the other way or too fast, and follows none.
 *
 * @param signal samples; `frequency` must be below half their rate
 * @param drives in proportion to the rotors' speeds
 * @param frequency Hz, about where the tone lies
 * @param ranges stretches of signal samples to look at
 * @returns null where no stretch holds a block
 */
export function commandTones(
  signal: Series,
  drives: readonly Series[],
  frequency: number,
  ranges: readonly IndexRange[],
): CommandTones | null {
  const blocks = blocksOf(signal.time, ranges, BLOCK, MOST_BLOCKS);
  if (blocks.length === 0) return null;
  const powers = drives.map(() => 0);
  let [steady, beside, whole] = [0, 0, 0];
  for (const block of blocks) {
    const slices = slicesOf(signal, block, frequency);
    const still = scan(slices, slices.time);
    const following = drives.map((drive) => scan(slices, integralOf(drive, slices.time)));
    // Only where the tone stands still is the rest of the scan free of it.
    const noise = Math.min(still.usual, ...following.map(({ usual }) => usual));
    for (const [i, { most }] of following.entries()) powers[i] = powers[i]! + most;
    steady += still.most;
    beside += noise;
    whole += wholePower(slices) - noise * NOISE_IN_WHOLE * slices.time.length;
  }
  const amplitude = (power: number) => Math.sqrt(Math.max(0, power) / blocks.length);
  return {
    amplitudes: powers.map(amplitude),
    steady: amplitude(steady),
    whole: amplitude(whole),
    background: amplitude(beside),
  };
}

/**
 * Noise passes a slice in a band as much wider than that of a block as a block is longer than a slice, two hops; and the
 * median of noise power is ln 2 of its mean.
 */
const NOISE_IN_WHOLE = 1 / (2 * Math.LN2);

function wholePower({ re, im }: Slices): number {
  const hann = window("hann", re.length);
  const sum = hann.reduce((total, weight) => total + weight, 0);
  return hann.reduce((total, weight, j) => total + weight * (re[j]! ** 2 + im[j]! ** 2), 0) / sum;
}

/** The complex amplitude of a signal near one frequency, from slice to slice. */
interface Slices {
  readonly frequency: number;
  readonly time: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Hann slices two hops long, each without its mean, so that swings far below the frequency do not leak in. */
function slicesOf({ time, values }: Series, { from, to }: IndexRange, frequency: number): Slices {
  const start = time[from]!;
  const hop = HOP / frequency;
  const count = Math.floor((time[to - 1]! - start) / hop) - 1;
  const slices = {
    frequency,
    time: Float64Array.from({ length: count }, (_, j) => start + (j + 1) * hop),
    re: new Float64Array(count),
    im: new Float64Array(count),
  };
  for (const [j, middle] of slices.time.entries()) {
    const [first, last] = [firstAtOrAfter(time, middle - hop), firstAtOrAfter(time, middle + hop)];
    const weights = time.subarray(first, last).map((t) => 1 + Math.cos((Math.PI * (t - middle)) / hop));
    const sum = weights.reduce((total, weight) => total + weight, 0);
    const level = weights.reduce((total, weight, k) => total + weight * values[first + k]!, 0) / sum;
    for (const [k, weight] of weights.entries()) {
      const angle = 2 * Math.PI * frequency * (time[first + k]! - start);
      const part = (2 * weight * (values[first + k]! - level)) / sum;
      slices.re[j] = slices.re[j]! + part * Math.cos(angle);
      slices.im[j] = slices.im[j]! - part * Math.sin(angle);
    }
  }
  return slices;
}

/** What stands still of the slices, squared amplitude, over all mean frequencies near the middle one. */
function scan({ frequency, time, re, im }: Slices, turns: Float64Array): { most: number; usual: number } {
  const count = time.length;
  const start = time[0]!;
  const perTurn = (time[count - 1]! - start) / (turns[count - 1]! - turns[0]!);
  const hann = window("hann", count);
  const weight = hann.reduce((sum, value) => sum + value, 0);
  const reach = Math.ceil((BESIDE * frequency) / STEP);
  const powers = Float64Array.from({ length: 2 * reach + 1 }, (_, at) => {
    const mean = frequency + (at - reach) * STEP;
    let [real, imaginary] = [0, 0];
    for (let j = 0; j < count; j++) {
      const angle = 2 * Math.PI * (mean * perTurn * (turns[j]! - turns[0]!) - frequency * (time[j]! - start));
      const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
      real += hann[j]! * (re[j]! * cosine + im[j]! * sine);
      imaginary += hann[j]! * (im[j]! * cosine - re[j]! * sine);
    }
    return (real * real + imaginary * imaginary) / (weight * weight);
  });
  return { most: peakOf(powers), usual: median(powers) };
}

/** The largest power, between steps by a parabola through its logarithms. */
function peakOf(powers: Float64Array): number {
  const at = powers.indexOf(Math.max(...powers));
  if (at === 0 || at === powers.length - 1) return powers[at]!;
  const [a, b, c] = [at - 1, at, at + 1].map((k) => Math.log(powers[k]!)) as [number, number, number];
  const bend = a - 2 * b + c;
  return bend < 0 ? Math.exp(b - (a - c) ** 2 / (8 * bend)) : powers[at]!;
}

import type { Series } from "../../log/channel.ts";
import { leastSquaresOrNull } from "../../signal/index.ts";
import type { IndexRange } from "../air-time.ts";
import { blocksOf } from "./blocks-of.ts";
import { integralOf } from "./integral-of.ts";

/** How strongly a signal swings along with a rotor, and how strongly it would by chance. */
export interface RotorTone {
  /** peak amplitude of the part that turns with the rotor, in the signal's unit */
  readonly amplitude: number;
  /** the same beside the rotor's frequency: what noise and other motion give */
  readonly background: number;
  /** Hz, mean frequency of the tone */
  readonly frequency: number;
}

/** s; rotors that turn alike are told apart by how their speeds wander, and that takes time */
const BLOCK = 5;
/** Blocks spread over a long flight are enough. */
const MOST_BLOCKS = 8;
/** Hz beside the tone, outside its own lobe, where the background is looked for */
const BESIDE = [-6, -4, 4, 6];

/**
 * Order tracking of all rotors together: least squares of the signal, under a Hann window, on waves whose phase is the
 * integral of each rotor's speed. What follows one rotor adds up on its wave while the others' speeds wander away from
 * it; rotors whose speeds do not part within a block show as a background as large as their tone.
 *
 * @param signal samples, fast enough that `order` times the speeds stay below half the rate
 * @param speeds of the rotors, rad/s
 * @param order 1 for once per turn, 2 for twice, ...
 * @param ranges stretches of signal samples to look at
 * @returns one tone per rotor; null where no stretch holds a block or the rotors turn in step
 * @see Vold & Leuridan 1993, SAE paper 931288 (several orders at once); Fyfe & Munck 1997, MSSP 11(2):187-205
 */
export function rotorTones(
  signal: Series,
  speeds: readonly Series[],
  order: number,
  ranges: readonly IndexRange[],
): RotorTone[] | null {
  const blocks = blocksOf(signal.time, ranges, BLOCK, MOST_BLOCKS);
  const sums = speeds.map(() => ({ power: 0, beside: 0, turns: 0 }));
  let [counted, seconds] = [0, 0];
  for (const { from, to } of blocks) {
    const time = signal.time.subarray(from, to);
    const values = signal.values.subarray(from, to);
    const phases = speeds.map((speed) => integralOf(speed, time).map((turned) => order * turned));
    const tone = squaredAmplitudes(time, values, phases, 0);
    const beside = BESIDE.map((offset) => squaredAmplitudes(time, values, phases, offset));
    if (tone === null || beside.some((found) => found === null)) continue;
    for (const [m, sum] of sums.entries()) {
      sum.power += tone[m]!;
      sum.beside += beside.reduce((total, found) => total + found![m]!, 0) / beside.length;
      sum.turns += phases[m]!.at(-1)! / (2 * Math.PI);
    }
    seconds += time.at(-1)! - time[0]!;
    counted++;
  }
  if (counted === 0) return null;
  return sums.map(({ power, beside, turns }) => ({
    amplitude: Math.sqrt(power / counted),
    background: Math.sqrt(beside / counted),
    frequency: turns / seconds,
  }));
}

/** Squared amplitude of each rotor's wave, all moved by `offset` Hz; null where the waves cannot be told apart. */
function squaredAmplitudes(
  time: Float64Array,
  values: Float64Array,
  phases: readonly Float64Array[],
  offset: number,
): number[] | null {
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  const hann = values.map((_, k) => 0.5 - 0.5 * Math.cos((2 * Math.PI * k) / values.length));
  const columns = phases.flatMap((phase) =>
    [Math.cos, Math.sin].map((wave) =>
      phase.map((angle, k) => hann[k]! * wave(angle + 2 * Math.PI * offset * (time[k]! - time[0]!))),
    ),
  );
  const fit = leastSquaresOrNull(
    columns,
    values.map((value, k) => hann[k]! * (value - middle)),
  );
  return fit && phases.map((_, m) => fit.coefficients[2 * m]! ** 2 + fit.coefficients[2 * m + 1]! ** 2);
}

import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import { leastSquaresOrNull, matrix } from "../../signal/index.ts";
import { bandMotion } from "./band-motion.ts";
import { regularityOf } from "./false-alarms.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import { onWindow } from "./on-window.ts";
import { unwrapped } from "./unwrapped.ts";

/** Half-width of the band, as a factor: wide enough that a step is told from a wave. */
const WIDE = 2.2;
/** Cycles within which a damped loop is done with a step. */
const MEMORY = 1.25;
/** Lags to the cycle, a little more than the band needs, and observations to the lag. */
const LAGS_PER_CYCLE = 5;
const PER_LAG = 2;
/** Share of the power that the steps have to account for: 0.97 to 1 in healthy flight (seeds 20001 to 20025). */
const MOST_OF_IT = 0.9;
/** Rate over the set point's own: a damped loop swings by no more than this (see `decideDriver`), one that is unstable does. */
const RESONANT_GAIN = 2;
/** Most cycles to the step: a damped answer is over by then, filter smear and all. */
const CYCLES_PER_STEP = 4;
/**
 * Regularity (see `regularityOf`) from which motion is a wave whatever its set point does: answers to sticks come to 0.42
 * (seeds 20001 to 20100), a real loop whose velocity loop swung along in jumps had 0.69.
 */
const CLEAR_WAVE = 0.5;
/** A wave steps twice a cycle. */
const STEPS_PER_CYCLE = 1.6;

/**
 * Whether a mode's motion is the axis' answer to set-point steps of the last cycle or so: a linear response of so short
 * a memory to the attitude set point makes nearly all of its power in a band of more than two octaves. A damped loop
 * answers every step of a stick with a swing that is over before the next cycle, and several steps in a row look like a
 * wave, though not like a clear one. A loop that rings on, a push from outside and a load need no step; a steady wave on
 * the stick has none, and is left to `decideDriver`.
 *
 * @returns false where the attitude set point is not logged
 * @see Ljung 1999, System Identification, section 4.2 (finite impulse response models), from memory
 */
export function isStepAnswer(flight: Flight, axis: Axis, mode: ModeMeasures): boolean {
  const channel = channelOf(flight, `attitude.${axis}.setpoint`);
  if (channel === undefined || regularityOf(mode) >= CLEAR_WAVE) return false;
  const { windowStart, rate, from, to, band, values, frequency, cycles } = mode;
  const cycle = rate / frequency.value;
  const asked = onWindow(unwrapped(channel), windowStart, rate, band.re.length);
  if (asked === null) return false;
  const steps = countSteps(asked, Math.max(0, Math.floor(from - cycle)), to, cycle, rate);
  if (steps * CYCLES_PER_STEP < cycles || steps > STEPS_PER_CYCLE * cycles) return false;
  const input = bandMotion(asked, rate, frequency.value, WIDE).re;
  const output = bandMotion(values, rate, frequency.value, WIDE).re;
  const hop = Math.max(1, Math.round(cycle / (LAGS_PER_CYCLE * PER_LAG)));
  const lagHop = PER_LAG * hop;
  const columns = 1 + Math.round((MEMORY * cycle) / lagHop);
  const first = Math.max(from, (columns - 1) * lagHop);
  const rows = Math.floor((to - first) / hop);
  if (rows <= columns) return false;
  const observed = Float64Array.from({ length: rows }, (_, k) => output[first + k * hop]!);
  const design = matrix(rows, columns);
  for (let k = 0; k < rows; k++)
    for (let lag = 0; lag < columns; lag++) design.data[k * columns + lag] = input[first + k * hop - lag * lagHop]!;
  const fit = leastSquaresOrNull(design, observed);
  if (fit === null) return false;
  const omega = 2 * Math.PI * frequency.value;
  const gain = Math.sqrt(power(output.subarray(from, to)) / power(input.subarray(from, to))) / omega;
  return gain <= RESONANT_GAIN && power(fit.residuals) <= (1 - MOST_OF_IT) * power(observed);
}

const power = (values: Float64Array) => values.reduce((sum, value) => sum + value * value, 0);

/** rad (2 deg), and share of how far the set point went within half a cycle to either side, of which a sine makes 0.38 */
const STEP = { size: 0.035, share: 0.5 };
/** Cycles, and s, within which a step is made. */
const STEP_TIME = { cycles: 1 / 8, seconds: 0.25 };

/** Steps of a set point within a range of indices: most of the way that it goes within a cycle, at once. */
function countSteps(asked: Float64Array, from: number, to: number, cycle: number, rate: number): number {
  const time = Math.max(1, Math.round(Math.min(STEP_TIME.cycles * cycle, STEP_TIME.seconds * rate)));
  const half = Math.ceil(cycle / 2);
  let [steps, last] = [0, Number.NEGATIVE_INFINITY];
  for (let i = Math.max(from, time); i < to; i++) {
    const change = Math.abs(asked[i]! - asked[i - time]!);
    if (change < STEP.size || i - last <= 2 * time) continue;
    const around = asked.subarray(Math.max(0, i - half), i + half);
    const range = around.reduce((a, b) => Math.max(a, b)) - around.reduce((a, b) => Math.min(a, b));
    if (change < STEP.share * range) continue;
    steps++;
    last = i;
  }
  return steps;
}

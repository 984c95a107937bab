import { bandMotion } from "./band-motion.ts";
import type { DriveMeasures } from "./drive-measures.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import type { CommandedMoment } from "./motor-moment.ts";
import { relate } from "./second-witness.ts";

/** Net work of the commanded moment over time. Both arrays are n long. */
export interface EnergyFlow {
  /** s */
  readonly time: Float64Array;
  /** work per cycle over the largest kinetic energy of the swing, mean of a cycle; above zero the motors feed it */
  readonly work: Float64Array;
}

/** Points that tell the story of an oscillation in a picture. */
const MOST_POINTS = 240;

/**
 * The energy measure of `driveMeasures`, moment by moment: where the phase between moment and motion differs from that
 * of the whole oscillation, so does the work.
 * @returns null where the size of the moment is unknown
 */
export function energyFlow(
  mode: ModeMeasures,
  moment: CommandedMoment,
  drive: Pick<DriveMeasures, "phase" | "share">,
): EnergyFlow | null {
  if (drive.share === null) return null;
  const { band, rate, frequency, from, to, windowStart, amplitude } = mode;
  const whole = relate(moment.values, mode);
  const own = bandMotion(moment.values, rate, frequency.value);
  const scale = (2 * Math.PI * drive.share.value) / whole.magnitude / (amplitude * amplitude);
  const turn = drive.phase.value + whole.phase;
  const [sine, cosine] = [Math.sin(turn), Math.cos(turn)];
  const cycle = Math.max(1, Math.round(rate / frequency.value));
  const step = Math.max(1, Math.ceil((to - from) / MOST_POINTS));
  const sums = new Float64Array(to - from + 1);
  for (let i = from; i < to; i++) {
    const re = own.re[i]! * band.re[i]! + own.im[i]! * band.im[i]!;
    const im = own.im[i]! * band.re[i]! - own.re[i]! * band.im[i]!;
    // size of the product times sin(turn - its phase)
    sums[i - from + 1] = sums[i - from]! + scale * (sine * re - cosine * im);
  }
  const count = Math.ceil((to - from) / step);
  const time = new Float64Array(count);
  const work = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const first = Math.max(0, k * step - (cycle >> 1));
    const last = Math.min(to - from, first + cycle);
    time[k] = windowStart + (from + k * step) / rate;
    work[k] = (sums[last]! - sums[first]!) / Math.max(1, last - first);
  }
  return { time, work };
}

import { bandMotion } from "./band-motion.ts";

/**
 * How well a motion repeats itself two periods later: the highest correlation of the motion with itself at lags about
 * two periods, in a band of more than two octaves. 1 for a tone, growing or not, since a change of size leaves a
 * correlation as it is; exp(-4 pi zeta) or so for the response of a damped mode to noise (0.02 at zeta 0.3, 0.28 at
 * 0.1), with a spread of about one over the root of the number of cycles.
 *
 * @param values n uniformly spaced values
 * @param range of indices that is looked at; by default all. At least three periods tell something
 * @returns -1 to 1; 0 where the record is too short
 * @see Miao & Seborg 1999, IEEE CCA (autocorrelation as an index of oscillation)
 */
export function periodicity(
  values: Float64Array,
  rate: number,
  frequency: number,
  { from, to }: { from: number; to: number } = { from: 0, to: values.length },
): number {
  const re = bandMotion(values, rate, frequency, WIDE).re.subarray(from, to);
  let best = 0;
  const [low, high] = [(2 * rate * (1 - LAG_SLACK)) / frequency, (2 * rate * (1 + LAG_SLACK)) / frequency];
  for (let lag = Math.max(1, Math.floor(low)); lag <= Math.ceil(high); lag++) {
    if (re.length - lag < rate / frequency) break;
    let [xy, xx, yy] = [0, 0, 0];
    for (let i = 0; i + lag < re.length; i++) {
      const [x, y] = [re[i]!, re[i + lag]!];
      xy += x * y;
      xx += x * x;
      yy += y * y;
    }
    if (xx > 0 && yy > 0) best = Math.max(best, xy / Math.sqrt(xx * yy));
  }
  return best;
}

const WIDE = 2.2;
const LAG_SLACK = 0.12;

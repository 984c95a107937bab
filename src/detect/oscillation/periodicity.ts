import { bandMotion } from "./band-motion.ts";

/**
 * How well a motion repeats itself two periods later: the highest correlation of the motion with itself at lags about
 * two periods, in a band of more than two octaves. 1 for a tone, growing or not, since a change of size leaves a
 * correlation as it is; exp(-4 pi zeta) or so for the response of a damped mode to noise (0.02 at zeta 0.3, 0.28 at
 * 0.1), with a spread of about one over the root of the number of cycles.
 *
 * @param values n uniformly spaced values
 * @param options range of indices that is looked at, by default all: at least three periods tell something; whether the
 *   period may change by up to two fifths over the range, as that of a load does which swings further and further
 * @returns -1 to 1; 0 where the record is too short
 * @see Miao & Seborg 1999, IEEE CCA (autocorrelation as an index of oscillation)
 */
export function periodicity(
  values: Float64Array,
  rate: number,
  frequency: number,
  { from = 0, to = values.length, mayDrift = false }: { from?: number; to?: number; mayDrift?: boolean } = {},
): number {
  const re = bandMotion(values, rate, frequency, WIDE).re.subarray(from, to);
  const [low, high] = [(2 * rate * (1 - LAG_SLACK)) / frequency, (2 * rate * (1 + LAG_SLACK)) / frequency];
  const drifts = mayDrift && re.length >= (DRIFT_PERIODS * rate) / frequency ? DRIFTS : [0];
  const stride = Math.max(1, Math.floor(rate / frequency / PER_PERIOD));
  let best = 0;
  for (const drift of drifts)
    for (let lag = Math.max(1, Math.floor(low)); lag <= Math.ceil(high); lag += stride)
      best = Math.max(best, likeness(re, lag, drift, rate / frequency, stride));
  return best;
}

/** Correlation of values with those a lag later, the lag drifting by a share of itself over the record. */
function likeness(values: Float64Array, lag: number, drift: number, fewest: number, stride: number): number {
  const last = values.length - 1;
  const first = lag * (1 - drift / 2) + 0.5;
  const growth = (lag * drift) / last;
  let xy = 0;
  let xx = 0;
  let yy = 0;
  let count = 0;
  for (let i = 0; ; i += stride) {
    const later = i + Math.floor(first + growth * i);
    if (later > last) break;
    const x = values[i]!;
    const y = values[later]!;
    xy += x * y;
    xx += x * x;
    yy += y * y;
    count += stride;
  }
  return count >= fewest && xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}

/** Periods from which on a slow drift is told from noise, and shares by which the period may change over them. */
const DRIFT_PERIODS = 6;
const DRIFTS = [0, -0.4, -0.2, 0.2, 0.4];
/** Values to the period that are compared. */
const PER_PERIOD = 48;
const WIDE = 2.2;
const LAG_SLACK = 0.12;

import { analyticSignal, butterworth, filterZeroPhase } from "../../signal/index.ts";

/** The motion that one fault adds on its axis, in its band. */
export interface VisibleMotion {
  /** s, first time that its envelope exceeds three times the calm in-band rms and stays there; null if never */
  readonly visible: number | null;
  /** s, when it has fallen below that level again for a whole cycle, or the fault ended; null if never visible */
  readonly faded: number | null;
  /** Hz, over the stretch from 70 % of its largest amplitude on */
  readonly frequency: number | null;
  /** 1/s, of the envelope from the visible onset to 60 % of the largest amplitude (or over the rest, if it decays) */
  readonly growth: number | null;
  /** rad/s, largest envelope */
  readonly amplitude: number;
  /** rad/s rms */
  readonly calm: number;
}

/** How far above the calm the motion has to come to count as visible. */
export const VISIBLE_RATIO = 3;

interface Motion {
  /** s, n row times, nearly uniform */
  readonly time: Float64Array;
  /** rad/s, the axis' real rate with and without the fault, n values each */
  readonly rate: Float64Array;
  readonly healthy: Float64Array;
  /** rad/s, what the gyro showed without the fault, n values */
  readonly measured: Float64Array;
  /** rows to take the calm from: steady flight */
  readonly isSteady: (row: number) => boolean;
  /** the same, with the fault, in the steady stretches that had ended by the time given */
  readonly stretchBefore: (time: number) => (row: number) => boolean;
  /** Hz */
  readonly band: readonly [number, number];
  readonly applied: number;
  readonly ended: number;
  /** s, from when on motors are at their limits and the growth is not what it was */
  readonly linearUntil: (from: number) => number;
  /** for how many cycles it has to stay above the level: 0 for a knock, a few for an oscillation */
  readonly cycles: number;
  /** a loop that rings after every knock before it goes: only the stretch that leads to the peak counts */
  readonly isSelfExcited: boolean;
}

/**
 * Compares a flight with its healthy twin, flown with the same noise: what differs is what the fault did.
 * Band-pass (Butterworth of order 2, zero phase), then the analytic signal for envelope and phase.
 */
export function visibleMotion(motion: Motion): VisibleMotion {
  const { time, band, applied, ended } = motion;
  const count = time.length;
  const sampleRate = (count - 1) / (time[count - 1]! - time[0]!);
  const filter = butterworth(2, [band[0], Math.min(band[1], 0.45 * sampleRate)], sampleRate);
  const added = filterZeroPhase(
    filter,
    motion.rate.map((rate, i) => rate - motion.healthy[i]!),
  );
  const healthyCalm = rootMeanSquare(filterZeroPhase(filter, motion.measured), motion.isSteady);
  const { re, im } = analyticSignal(added);
  const envelope = re.map((x, i) => Math.hypot(x, im[i]!));
  const first = time.findIndex((t) => t >= applied);
  const after = time.findIndex((t) => t >= ended);
  const last = after === -1 ? count : after;
  const middle = Math.sqrt(band[0] * band[1]);
  let peak = first;
  for (let i = first; i < last; i++) if (envelope[i]! > envelope[peak]!) peak = i;
  const amplitude = envelope[peak] ?? 0;
  // A loop with little damping left rings with every gust; growing out of that is what can be seen. The cycles just
  // before the peak are the growth itself.
  const isBefore = motion.stretchBefore((time[peak] ?? 0) - 6 / middle);
  const ownCalm = motion.isSelfExcited ? rootMeanSquare(added, isBefore) : 0;
  const calm = Math.max(healthyCalm, ownCalm);
  const level = VISIBLE_RATIO * calm;
  const onset =
    amplitude > level ? lastingFrom(envelope, first, last, level, (motion.cycles / middle) * sampleRate) : -1;
  if (onset === -1) return { visible: null, faded: null, frequency: null, growth: null, amplitude, calm };
  const strong = indexFrom(envelope, onset, last, (value) => value > 0.7 * amplitude);
  return {
    visible: Math.max(applied, time[onset]!),
    faded: time[fadedAt(envelope, onset, last, level, sampleRate / middle)]!,
    frequency: meanFrequency(time, re, im, strong, last, 0.5 * amplitude, envelope),
    growth: growthOf({
      time,
      envelope,
      onset,
      peak,
      last,
      period: 1 / middle,
      limit: motion.linearUntil(time[onset]!),
    }),
    amplitude,
    calm,
  };
}

function rootMeanSquare(values: Float64Array, counts: (row: number) => boolean): number {
  let square = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (!counts(i)) continue;
    square += values[i]! ** 2;
    count++;
  }
  return count > 0 ? Math.sqrt(square / count) : 0;
}

/** First row of a stretch above the level that lasts, or lasts until the end. */
function lastingFrom(envelope: Float64Array, from: number, to: number, level: number, rows: number): number {
  let since = -1;
  for (let i = from; i < to; i++) {
    if (envelope[i]! <= level) since = -1;
    else if (since === -1) since = i;
    if (since !== -1 && i - since >= rows) return since;
  }
  return -1;
}

/** Last row above the level before it stays below it for so many rows. */
function fadedAt(envelope: Float64Array, onset: number, to: number, level: number, rows: number): number {
  let above = onset;
  for (let i = onset; i < to && i - above <= rows; i++) if (envelope[i]! > level) above = i;
  return above;
}

function indexFrom(values: Float64Array, from: number, to: number, is: (value: number) => boolean): number {
  for (let i = from; i < to; i++) if (is(values[i]!)) return i;
  return -1;
}

/** Phase gained over the time in which the envelope stays above `floor`, at most twenty seconds of it. */
function meanFrequency(
  time: Float64Array,
  re: Float64Array,
  im: Float64Array,
  from: number,
  to: number,
  floor: number,
  envelope: Float64Array,
): number | null {
  let turned = 0;
  let seconds = 0;
  for (let i = from + 1; i < to && seconds < 20; i++) {
    if (envelope[i]! < floor) continue;
    const step = Math.atan2(im[i]! * re[i - 1]! - re[i]! * im[i - 1]!, re[i]! * re[i - 1]! + im[i]! * im[i - 1]!);
    turned += step;
    seconds += time[i]! - time[i - 1]!;
  }
  return seconds > 0 && turned > 0 ? turned / (2 * Math.PI * seconds) : null;
}

interface Rise {
  readonly time: Float64Array;
  readonly envelope: Float64Array;
  /** rows: where it became visible, where it is largest, and the end of the fault */
  readonly onset: number;
  readonly peak: number;
  readonly last: number;
  /** s, of one cycle, and when motors first come to a limit */
  readonly period: number;
  readonly limit: number;
}

/** Slope of the logarithm of the envelope by least squares, on the way up (or down, if the start is the largest). */
function growthOf({ time, envelope, onset, peak, last, period, limit }: Rise): number | null {
  const amplitude = envelope[peak]!;
  const isLong = (from: number, to: number) => time[to]! - time[from]! > 1.5 * period;
  let from = onset;
  let to = indexFrom(envelope, onset, last, (value) => value > 0.6 * amplitude);
  const limited = time.findIndex((t) => t >= limit);
  if (limited !== -1 && limited < to && isLong(from, limited)) to = limited;
  if (!isLong(from, to)) {
    // It was as large as it gets almost at once: what it does afterwards tells.
    from = peak;
    to = last - 1;
    while (to > from && envelope[to]! < 0.05 * amplitude) to--;
  }
  if (to <= from || !isLong(from, to)) return null;
  let [n, sumT, sumL, sumTT, sumTL] = [0, 0, 0, 0, 0];
  for (let i = from; i <= to; i++) {
    const t = time[i]! - time[from]!;
    const l = Math.log(Math.max(envelope[i]!, 1e-12));
    n++;
    sumT += t;
    sumL += l;
    sumTT += t * t;
    sumTL += t * l;
  }
  const spread = n * sumTT - sumT * sumT;
  return spread > 0 ? (n * sumTL - sumT * sumL) / spread : null;
}

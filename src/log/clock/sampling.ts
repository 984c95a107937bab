import { median } from "../../signal/index.ts";
import type { Span } from "../channel.ts";

/** How times are spaced. */
export interface Sampling {
  /** 1 / median interval, Hz; 0 where there are fewer than two times */
  readonly rate: number;
  /** pauses too long to interpolate over */
  readonly gaps: readonly Span[];
  /** s, longest time between two samples that follow one another */
  readonly longestGap: number;
  /** s, standard deviation of the intervals, gaps left out */
  readonly jitter: number;
  /** s, time from first to last, gaps left out */
  readonly covered: number;
}

/** More than four samples lost in a row: a straight line over them would flatten motion faster than a tenth of the rate. */
const INTERVALS_IN_A_GAP = 5;
/** s; a line over less than this hides nothing slower than 50 Hz, however fast the log is */
const SHORTEST_GAP = 0.01;

/**
 * Rate, pauses and jitter of a clock.
 *
 * A pause is a gap where it is longer than 5 typical intervals and longer than 10 ms, the typical interval being the
 * median one, or half the mean one where that is longer (bursts of nearly equal stamps). A pause that holds one of
 * `outerGaps` is a gap in any case: where the rows of a log pause, each of its channels does.
 *
 * @param time n increasing times, s
 * @param outerGaps gaps of the rows that these times are taken from, ascending
 */
export function samplingOf(time: Float64Array, outerGaps: readonly Span[] = []): Sampling {
  if (time.length < 2) return { rate: 0, gaps: [], longestGap: 0, jitter: 0, covered: 0 };
  const whole = time[time.length - 1]! - time[0]!;
  const median = medianInterval(time);
  const longest = Math.max(INTERVALS_IN_A_GAP * Math.max(median, whole / (time.length - 1) / 2), SHORTEST_GAP);
  const gaps: Span[] = [];
  let longestGap = 0;
  let paused = 0;
  let sum = 0;
  let squares = 0;
  let outer = 0;
  for (let at = 1; at < time.length; at++) {
    const start = time[at - 1]!;
    const end = time[at]!;
    const interval = end - start;
    if (interval > longestGap) longestGap = interval;
    while (outer < outerGaps.length && outerGaps[outer]!.end <= start) outer++;
    const holdsOuter = outer < outerGaps.length && outerGaps[outer]!.start >= start && outerGaps[outer]!.end <= end;
    if (interval > longest || holdsOuter) {
      gaps.push({ start, end });
      paused += interval;
    } else {
      sum += interval - median;
      squares += (interval - median) ** 2;
    }
  }
  const count = time.length - 1 - gaps.length;
  const jitter = count < 2 ? 0 : Math.sqrt(Math.max(0, (squares - sum ** 2 / count) / (count - 1)));
  return { rate: over(median), gaps, longestGap, jitter, covered: whole - paused };
}

/** 1 / median interval, Hz; 0 where there are fewer than two times. */
export function rateOf(time: Float64Array): number {
  return time.length < 2 ? 0 : over(medianInterval(time));
}

const over = (interval: number) => (interval > 0 ? 1 / interval : 0);

/** From at most 20,000 intervals spread evenly over the log, which tell it as well as all. */
function medianInterval(time: Float64Array): number {
  const step = Math.max(1, Math.floor((time.length - 1) / 20_000));
  const intervals = new Float64Array(Math.floor((time.length - 1) / step));
  for (let i = 0; i < intervals.length; i++) intervals[i] = time[i * step + 1]! - time[i * step]!;
  return median(intervals);
}

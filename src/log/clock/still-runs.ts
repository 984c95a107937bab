import type { Series, Span } from "../channel.ts";

/** A run of equal values, from its first sample to its last. */
export interface Run extends Span {
  readonly value: number;
  readonly samples: number;
  /** the run starts with the channel's first sample */
  readonly isFirst: boolean;
}

/** s; least time that a value has to stay the same to be remarkable */
const SHORTEST = 0.5;
const FEWEST_SAMPLES = 10;
/** How much longer than the channel usually waits between changes. */
const TIMES_USUAL = 20;

/**
 * Runs in which a value did not change for longer than its own activity explains: at least 0.5 s and 10 samples, and 20
 * times the wait for a change that this channel keeps within for 99 % of its other time. A value that is coarsely quantised
 * or slow waits long by habit and is given as much more; one that never changes is a single run.
 *
 * A gap ends a run: what happened in it is not known.
 */
export function stillRuns({ time, values }: Series, gaps: readonly Span[]): Run[] {
  const long: Run[] = [];
  const waits: number[] = [];
  let from = 0;
  let gap = 0;
  for (let at = 1; at <= time.length; at++) {
    const isGap = gap < gaps.length && gaps[gap]!.start === time[at - 1]!;
    if (isGap) gap++;
    if (at < time.length && values[at] === values[from] && !isGap) continue;
    const run = {
      start: time[from]!,
      end: time[at - 1]!,
      value: values[from]!,
      samples: at - from,
      isFirst: from === 0,
    };
    if (run.end - run.start >= SHORTEST && run.samples >= FEWEST_SAMPLES) long.push(run);
    else if (!isGap && at < time.length) waits.push(time[at]! - run.start);
    from = at;
  }
  const usual = usualWait(waits);
  return long.filter((run) => run.end - run.start >= TIMES_USUAL * usual);
}

/** The wait within which 99 % of the time is spent; 0 where there is none. */
function usualWait(waits: number[]): number {
  waits.sort((a, b) => a - b);
  const total = waits.reduce((sum, wait) => sum + wait, 0);
  let passed = 0;
  for (const wait of waits) {
    passed += wait;
    if (passed >= 0.99 * total) return wait;
  }
  return 0;
}

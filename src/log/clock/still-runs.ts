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
  forEachRun(time, values, gaps, (from, to) => {
    // Nearly every run of a moving channel is of one sample.
    if (to - from < FEWEST_SAMPLES) return;
    const run = {
      start: time[from]!,
      end: time[to - 1]!,
      value: values[from]!,
      samples: to - from,
      isFirst: from === 0,
    };
    if (isRemarkable(run)) long.push(run);
  });
  if (long.length === 0) return long;
  const usual = usualWait(time, values, gaps);
  return long.filter((run) => run.end - run.start >= TIMES_USUAL * usual);
}

const isRemarkable = ({ start, end, samples }: Pick<Run, "start" | "end" | "samples">) =>
  end - start >= SHORTEST && samples >= FEWEST_SAMPLES;

/** Visits each run of equal values as a range of indices. */
function forEachRun(
  time: Float64Array,
  values: Float64Array,
  gaps: readonly Span[],
  visit: (from: number, to: number, endsInGap: boolean) => void,
): void {
  let from = 0;
  let gap = 0;
  for (let at = 1; at <= time.length; at++) {
    const isGap = gap < gaps.length && gaps[gap]!.start === time[at - 1]!;
    if (isGap) gap++;
    if (at < time.length && values[at] === values[from] && !isGap) continue;
    visit(from, at, isGap);
    from = at;
  }
}

/** The wait for the next change within which 99 % of the time is spent, remarkable runs left out; 0 where there is none. */
function usualWait(time: Float64Array, values: Float64Array, gaps: readonly Span[]): number {
  const waits = new Float64Array(time.length);
  let count = 0;
  let total = 0;
  forEachRun(time, values, gaps, (from, to, endsInGap) => {
    if (endsInGap || to === time.length) return;
    if (isRemarkable({ start: time[from]!, end: time[to - 1]!, samples: to - from })) return;
    waits[count] = time[to]! - time[from]!;
    total += waits[count++]!;
  });
  let passed = 0;
  for (const wait of waits.subarray(0, count).sort()) {
    passed += wait;
    if (passed >= 0.99 * total) return wait;
  }
  return 0;
}

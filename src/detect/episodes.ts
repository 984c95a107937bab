import type { Span } from "../log/channel.ts";
import type { IndexRange } from "./air-time.ts";

/** When something held, sample by sample. */
export interface Episodes {
  readonly stretches: readonly Span[];
  /** of all samples looked at */
  readonly share: number;
}

/**
 * Runs of samples whose flag is up. One sample stands for the time to the next one, at most one usual interval.
 * @param ranges the samples to look at
 * @param interval s, usual time between samples
 * @param flags as many as times; 0 where it does not hold
 */
export function episodesOf(
  time: Float64Array,
  ranges: readonly IndexRange[],
  interval: number,
  flags: Uint8Array,
): Episodes {
  const stretches: { start: number; end: number }[] = [];
  let holding = 0;
  let looked = 0;
  for (const { from, to } of ranges) {
    let open: { start: number; end: number } | null = null;
    looked += to - from;
    for (let i = from; i < to; i++) {
      if (flags[i] === 0) {
        open = null;
        continue;
      }
      holding++;
      const until = Math.min(time[i]! + interval, i + 1 < to ? time[i + 1]! : time[i]! + interval);
      if (open === null || time[i]! - open.end > interval / 2) {
        open = { start: time[i]!, end: until };
        stretches.push(open);
      } else {
        open.end = until;
      }
    }
  }
  return { stretches, share: looked === 0 ? 0 : holding / looked };
}

/** s, length of the longest stretch; 0 where there is none. */
export function longestOf(stretches: readonly Span[]): number {
  return stretches.reduce((longest, { start, end }) => Math.max(longest, end - start), 0);
}

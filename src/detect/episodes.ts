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
 * @param flags as many as times; 1 where it holds, else 0
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
    looked += to - from;
    // Most samples of most flights hold nothing: a search by the engine passes them faster than a loop.
    const within = flags.subarray(from, to);
    for (let up = within.indexOf(1); up !== -1; up = within.indexOf(1, up)) {
      let open: { start: number; end: number } | null = null;
      for (; within[up] === 1; up++) {
        const i = from + up;
        const until = Math.min(time[i]! + interval, i + 1 < to ? time[i + 1]! : time[i]! + interval);
        if (open === null || time[i]! - open.end > interval / 2) {
          open = { start: time[i]!, end: until };
          stretches.push(open);
        } else {
          open.end = until;
        }
        holding++;
      }
    }
  }
  return { stretches, share: looked === 0 ? 0 : holding / looked };
}

/** s, length of the longest stretch; 0 where there is none. */
export function longestOf(stretches: readonly Span[]): number {
  return stretches.reduce((longest, { start, end }) => Math.max(longest, end - start), 0);
}

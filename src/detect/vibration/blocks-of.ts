import { firstAtOrAfter } from "../../log/clock/first-at-or-after.ts";
import type { IndexRange } from "../air-time.ts";

/** Blocks of so many seconds within ranges of samples; where there are more than enough, some spread over all. */
export function blocksOf(
  time: Float64Array,
  ranges: readonly IndexRange[],
  seconds: number,
  enough: number,
): IndexRange[] {
  const all = ranges.flatMap(({ from, to }) => {
    const blocks: IndexRange[] = [];
    for (let start = from; start < to; ) {
      const end = firstAtOrAfter(time, time[start]! + seconds);
      if (end >= to) break;
      blocks.push({ from: start, to: end });
      start = end;
    }
    return blocks;
  });
  const stride = Math.max(1, all.length / enough);
  return Array.from({ length: Math.min(all.length, enough) }, (_, k) => all[Math.floor(k * stride)]!);
}

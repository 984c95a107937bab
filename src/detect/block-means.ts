import type { IndexRange } from "./air-time.ts";

/** Samples of stretches taken together in blocks, none across a pause. */
export interface Blocks {
  /** the stretches in blocks */
  readonly stretches: readonly IndexRange[];
  /** the first value of each block */
  first(values: Float64Array): Float64Array;
  /** the mean of each block */
  mean(values: Float64Array): Float64Array;
  /** 1 where a flag is up anywhere in the block */
  any(flags: Uint8Array): Uint8Array;
}

/**
 * Blocks of `every` samples; the last one of a stretch takes the rest as well.
 * @param stretches half-open index ranges, in order
 * @param every at least 1
 */
export function blocksOf(stretches: readonly IndexRange[], every: number): Blocks {
  const inBlocks: IndexRange[] = [];
  const edges: number[] = [];
  for (const { from, to } of stretches) {
    const count = Math.max(1, Math.floor((to - from) / every));
    inBlocks.push({ from: edges.length, to: edges.length + count });
    for (let k = 0; k < count; k++) edges.push(from + k * every);
  }
  const firsts = Uint32Array.from(edges);
  const ends = Uint32Array.from(edges, (_, k) => edges[k + 1] ?? stretches.at(-1)!.to);
  for (const [s, { to }] of inBlocks.entries()) ends[to - 1] = stretches[s]!.to;
  return {
    stretches: inBlocks,
    first: (values) => (every === 1 ? values : Float64Array.from(firsts, (at) => values[at]!)),
    mean(values) {
      if (every === 1) return values;
      const means = new Float64Array(firsts.length);
      for (let k = 0; k < means.length; k++) {
        const first = firsts[k]!;
        const end = ends[k]!;
        let sum = 0;
        for (let i = first; i < end; i++) sum += values[i]!;
        means[k] = sum / (end - first);
      }
      return means;
    },
    any(flags) {
      if (every === 1) return flags;
      return Uint8Array.from(firsts, (first, k) => (flags.subarray(first, ends[k]!).includes(1) ? 1 : 0));
    },
  };
}

/**
 * How many samples make a block, so that there are at least `least` blocks a second, Hz, and fewer than twice as many;
 * 1 where there are no more samples than that. The rate is the mean one: stamps may come in bursts.
 */
export function blockSize(time: Float64Array, stretches: readonly IndexRange[], least: number): number {
  let intervals = 0;
  let covered = 0;
  for (const { from, to } of stretches) {
    intervals += to - from - 1;
    covered += time[to - 1]! - time[from]!;
  }
  // A rate measured a little low is still a whole multiple.
  return covered > 0 ? Math.max(1, Math.floor((1.02 * intervals) / covered / least)) : 1;
}

import type { IndexRange } from "./air-time.ts";

/** Fewer samples of stretches: blocks of `every` samples become one, and none reaches across a pause. */
export interface Thinning {
  /** the stretches among what is kept */
  readonly stretches: readonly IndexRange[];
  /** the mean of each block */
  mean(values: Float64Array): Float64Array;
  /** 1 where a flag was up anywhere in the block */
  pickFlags(flags: Uint8Array): Uint8Array;
}

/** Samples to a block for about `most` blocks a second, Hz both; a rate measured a little low is still a multiple. */
export const blockSize = (rate: number, most: number): number => Math.max(1, Math.floor((1.02 * rate) / most));

/** @param every samples to a block, at least 1; the last one of a stretch may hold fewer */
export function thinning(stretches: readonly IndexRange[], every: number): Thinning {
  let count = 0;
  const thinned = stretches.map(({ from, to }) => {
    const first = count;
    count += Math.ceil((to - from) / every);
    return { from: first, to: count };
  });
  return {
    stretches: thinned,
    mean(values) {
      if (every === 1) return values;
      const means = new Float64Array(count);
      let k = 0;
      for (const { from, to } of stretches) {
        for (let first = from; first < to; first += every) {
          const end = Math.min(to, first + every);
          let sum = 0;
          for (let i = first; i < end; i++) sum += values[i]!;
          means[k++] = sum / (end - first);
        }
      }
      return means;
    },
    pickFlags(flags) {
      if (every === 1) return flags;
      const picked = new Uint8Array(count);
      for (const [s, { from, to }] of stretches.entries()) {
        const first = thinned[s]!.from;
        for (let i = from; i < to; i++) if (flags[i] === 1) picked[first + Math.floor((i - from) / every)] = 1;
      }
      return picked;
    },
  };
}

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
  if (every === 1) return { stretches, first: (values) => values, mean: (values) => values, any: (flags) => flags };
  const parts: Part[] = [];
  let count = 0;
  for (const stretch of stretches) {
    const from = count;
    count += Math.max(1, Math.floor((stretch.to - stretch.from) / every));
    parts.push({ stretch, blocks: { from, to: count }, every });
  }
  return {
    stretches: parts.map(({ blocks }) => blocks),
    first(values) {
      const taken = new Float64Array(count);
      for (const part of parts) writeFirst(taken, values, part);
      return taken;
    },
    mean(values) {
      const means = new Float64Array(count);
      for (const part of parts) writeMeans(means, values, part);
      return means;
    },
    any(flags) {
      const any = new Uint8Array(count);
      for (const part of parts) writeAny(any, flags, part);
      return any;
    },
  };
}

/** A stretch of samples, and the blocks of `every` of them that it is taken together in. */
interface Part {
  readonly stretch: IndexRange;
  readonly blocks: IndexRange;
  readonly every: number;
}

function writeFirst(into: Float64Array, values: Float64Array, { stretch, blocks, every }: Part): void {
  for (let k = blocks.from, i = stretch.from; k < blocks.to; k++, i += every) into[k] = values[i]!;
}

function writeMeans(into: Float64Array, values: Float64Array, { stretch, blocks, every }: Part): void {
  for (let k = blocks.from, i = stretch.from; k < blocks.to; k++) {
    const start = i;
    const end = k + 1 < blocks.to ? start + every : stretch.to;
    let sum = 0;
    for (; i < end; i++) sum += values[i]!;
    into[k] = sum / (end - start);
  }
}

function writeAny(into: Uint8Array, flags: Uint8Array, { stretch, blocks, every }: Part): void {
  // Few flags are up in most flights: a search by the engine passes the others faster than a loop.
  for (let i = flags.indexOf(1, stretch.from); i !== -1 && i < stretch.to; ) {
    const k = Math.floor((i - stretch.from) / every);
    into[Math.min(blocks.to - 1, blocks.from + k)] = 1;
    i = flags.indexOf(1, stretch.from + (k + 1) * every);
  }
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

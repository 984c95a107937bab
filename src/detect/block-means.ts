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
  let count = 0;
  for (const { from, to } of stretches) {
    const blocks = Math.max(1, Math.floor((to - from) / every));
    inBlocks.push({ from: count, to: count + blocks });
    count += blocks;
  }
  const starts = new Int32Array(count);
  const ends = new Int32Array(count);
  for (const [s, blocks] of inBlocks.entries()) {
    const { from, to } = stretches[s]!;
    for (let k = blocks.from; k < blocks.to; k++) {
      starts[k] = from + (k - blocks.from) * every;
      ends[k] = k + 1 < blocks.to ? starts[k]! + every : to;
    }
  }
  return {
    stretches: inBlocks,
    first: (values) => (every === 1 ? values : picked(values, starts)),
    mean: (values) => (every === 1 ? values : meansOf(values, starts, ends)),
    any: (flags) => (every === 1 ? flags : anyOf(flags, starts, ends)),
  };
}

function picked(values: Float64Array, places: Int32Array): Float64Array {
  const taken = new Float64Array(places.length);
  for (let k = 0; k < taken.length; k++) taken[k] = values[places[k]!]!;
  return taken;
}

function meansOf(values: Float64Array, starts: Int32Array, ends: Int32Array): Float64Array {
  const means = new Float64Array(starts.length);
  for (let k = 0; k < means.length; k++) {
    const end = ends[k]!;
    let sum = 0;
    for (let i = starts[k]!; i < end; i++) sum += values[i]!;
    means[k] = sum / (end - starts[k]!);
  }
  return means;
}

function anyOf(flags: Uint8Array, starts: Int32Array, ends: Int32Array): Uint8Array {
  const any = new Uint8Array(starts.length);
  for (let k = 0; k < any.length; k++) {
    for (let i = starts[k]!; i < ends[k]! && any[k] === 0; i++) any[k] = flags[i]!;
  }
  return any;
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

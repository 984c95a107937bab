import { requireBetween, requirePositive, requireSamples, requireWhole } from "../checks.ts";
import { type RandomGenerator, randomGenerator } from "../random/random-generator.ts";
import { blockLength } from "./block-length.ts";
import { standardDeviation } from "./moments.ts";
import { quantiles } from "./quantile.ts";

export interface BootstrapOptions {
  /** Block length, samples (the mean length for the stationary bootstrap); default by `blockLength`. */
  readonly blockLength?: number;
  /** Default 1000. */
  readonly resamples?: number;
  /** Of the interval, default 0.95. */
  readonly confidence?: number;
  /** Of the random numbers, default 1. */
  readonly seed?: number;
}

export interface BootstrapInterval {
  /** The statistic of the values themselves. */
  readonly estimate: number;
  /** Ends of the percentile interval. */
  readonly low: number;
  readonly high: number;
  readonly standardError: number;
  readonly blockLength: number;
}

/** What is resampled: any number that a series has. It gets a scratch array that the next call overwrites. */
export type Statistic = (values: Float64Array) => number;

/**
 * Interval of a statistic of a correlated series by the moving-block bootstrap: series are put together from blocks
 * that start anywhere. Percentile intervals of few and long blocks are too narrow; see the coverage study.
 * @param values at least 16
 * @see Kunsch 1989, Ann. Stat. 17(3):1217-1241
 */
export function movingBlockBootstrap(
  values: Float64Array,
  statistic: Statistic,
  options: BootstrapOptions = {},
): BootstrapInterval {
  requireSamples(values, 16, "values");
  const length = options.blockLength ?? Math.round(blockLength(values).movingBlock);
  requireWhole(length, 1, "blockLength", values.length);
  return bootstrap(values, statistic, options, length, (out, random) => {
    for (let at = 0; at < out.length; at += length) {
      const start = random.below(values.length - length + 1);
      out.set(values.subarray(start, start + Math.min(length, out.length - at)), at);
    }
  });
}

/**
 * The same by the stationary bootstrap: blocks of random, geometrically distributed length, the series taken as a ring.
 * @param values at least 16
 * @see Politis & Romano 1994, J. Am. Stat. Assoc. 89:1303-1313
 */
export function stationaryBootstrap(
  values: Float64Array,
  statistic: Statistic,
  options: BootstrapOptions = {},
): BootstrapInterval {
  requireSamples(values, 16, "values");
  const length = options.blockLength ?? blockLength(values).stationary;
  requirePositive(length, "blockLength");
  const ending = 1 / Math.max(1, length);
  return bootstrap(values, statistic, options, length, (out, random) => {
    let place = random.below(values.length);
    for (let at = 0; at < out.length; at++) {
      out[at] = values[place]!;
      place = random.uniform() < ending ? random.below(values.length) : (place + 1) % values.length;
    }
  });
}

function bootstrap(
  values: Float64Array,
  statistic: Statistic,
  options: BootstrapOptions,
  length: number,
  resample: (out: Float64Array, random: RandomGenerator) => void,
): BootstrapInterval {
  const { resamples = 1000, confidence = 0.95, seed = 1 } = options;
  requireWhole(resamples, 2, "resamples");
  requireBetween(confidence, 0, 1, "confidence");
  const random = randomGenerator(seed);
  const scratch = new Float64Array(values.length);
  const replicates = new Float64Array(resamples);
  for (let i = 0; i < resamples; i++) {
    resample(scratch, random);
    replicates[i] = statistic(scratch);
  }
  const [low, high] = quantiles(replicates, [(1 - confidence) / 2, (1 + confidence) / 2]);
  const standardError = standardDeviation(replicates);
  return { estimate: statistic(values), low: low!, high: high!, standardError, blockLength: length };
}

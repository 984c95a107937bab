import type { Series, Span } from "../../log/channel.ts";
import { firstAtOrAfter } from "../../log/clock/first-at-or-after.ts";
import {
  leastSquares,
  type Matrix,
  matrix,
  matrixOfColumns,
  pseudoInverse,
  standardDeviation,
} from "../../signal/index.ts";

/** Mean share of the thrust that each motor carried over some steady stretches. */
export interface MeanShares {
  /** n, thrust of each motor over the total; sums to 1 */
  readonly shares: Float64Array;
  /** n x n covariance of these means, correlation in time allowed for */
  readonly covariance: Matrix;
  /** of the covariance: how many blocks it rests on, less one */
  readonly degreesOfFreedom: number;
  /** mean demand of all motors */
  readonly demand: number;
  /** s */
  readonly seconds: number;
}

/** s, shortest block, and into how many blocks a flight is cut at most: longer blocks are less alike their neighbours */
const SHORTEST_BLOCK = 1;
const LONGEST_BLOCK = 6;
const BLOCKS = 12;
/** Fewer blocks do not tell their own spread. */
const FEWEST_BLOCKS = 4;

/**
 * Averages the motors' thrust shares over stretches. Neighbouring samples are not independent, so the means of blocks
 * of equal length are taken as replicates; what correlation r neighbouring blocks still have scales their covariance
 * by (1 + r) / (1 - r).
 *
 * Slow drifting moves the load with the speed through the air (rotors flap back, the body drags): where `drift` is
 * given, the shares are those at zero speed of a straight line through the blocks.
 *
 * @param demands of each motor
 * @param maxThrust weight of each motor's demand
 * @param drift velocities, m/s, to be led back to zero; none by default
 * @returns null where the stretches hold less than four blocks
 * @see Bayley & Hammersley 1946, J. R. Stat. Soc. Suppl. 8:184-197 (what correlation does to a mean)
 */
export function meanShares(
  demands: readonly Series[],
  maxThrust: Float64Array,
  spans: readonly Span[],
  drift: readonly Series[] = [],
): MeanShares | null {
  const total = spans.reduce((sum, { start, end }) => sum + end - start, 0);
  const length = Math.min(LONGEST_BLOCK, Math.max(SHORTEST_BLOCK, total / BLOCKS));
  const blocks = spans
    .flatMap((span) => blocksOf(span, length))
    .flatMap((block) => blockShares(demands, maxThrust, drift, block) ?? []);
  if (blocks.length < FEWEST_BLOCKS) return null;
  const count = demands.length;
  const design = matrixOfColumns(regressors(blocks));
  const fits = Array.from({ length: count }, (_, i) =>
    leastSquares(
      design,
      Float64Array.from(blocks, ({ shares }) => shares[i]!),
    ),
  );
  const freedom = blocks.length - design.columns;
  const correlation = neighbourCorrelation(fits.map(({ residuals }) => residuals));
  const scale = (unscaledVariance(design) * (1 + correlation)) / (1 - correlation) / freedom;
  const covariance = new Float64Array(count * count).map((_, at) => {
    const [a, b] = [fits[Math.floor(at / count)]!.residuals, fits[at % count]!.residuals];
    const still = at % (count + 1) === 0 ? (LASTING_AIR / count) ** 2 : 0;
    return still + scale * a.reduce((sum, value, k) => sum + value * b[k]!, 0);
  });
  return {
    shares: Float64Array.from(fits, ({ coefficients }) => coefficients[0]!),
    covariance: matrix(count, count, covariance),
    degreesOfFreedom: freedom,
    demand: average(blocks.map((block) => block.demand)),
    seconds: blocks.length * length,
  };
}

/**
 * One standard deviation of a motor's share, over that share, from air that moves as long as the stretch lasts: no
 * block tells it. A decimetre per second past the rotors does as much (measured on simulated hovers in light gusts).
 */
const LASTING_AIR = 0.0007;

/** m/s, rms over the blocks: a slower drift moves the load by less than its noise */
const LEAST_DRIFT = 0.1;
/** Blocks for each regressor: fewer would fit their noise. */
const BLOCKS_PER_DRIFT = 4;

/** A column of ones, and one of each drift that is large enough and has blocks enough to be told. */
function regressors(blocks: readonly Block[]): Float64Array[] {
  const ones = new Float64Array(blocks.length).fill(1);
  const drifts = blocks[0]!.drift
    .map((_, k) => Float64Array.from(blocks, ({ drift }) => drift[k]!))
    .filter((speeds) => Math.sqrt(average(speeds.map((v) => v * v))) > LEAST_DRIFT && standardDeviation(speeds) > 0);
  return [ones, ...drifts.slice(0, Math.floor(blocks.length / BLOCKS_PER_DRIFT) - 1)];
}

/** Variance of the first coefficient for errors of variance 1. */
function unscaledVariance({ rows, columns, data }: Matrix): number {
  const gram = new Float64Array(columns * columns).map((_, at) => {
    const [i, j] = [Math.floor(at / columns), at % columns];
    let sum = 0;
    for (let row = 0; row < rows; row++) sum += data[row * columns + i]! * data[row * columns + j]!;
    return sum;
  });
  return pseudoInverse({ rows: columns, columns, data: gram }).data[0]!;
}

interface Block {
  readonly shares: Float64Array;
  readonly demand: number;
  readonly drift: readonly number[];
}

function blocksOf({ start, end }: Span, length: number): Span[] {
  const count = Math.floor((end - start) / length + 1e-9);
  return Array.from({ length: count }, (_, k) => ({ start: start + k * length, end: start + (k + 1) * length }));
}

/** Each motor's share in one block; null where a motor or a velocity has no sample there. */
function blockShares(
  demands: readonly Series[],
  maxThrust: Float64Array,
  drift: readonly Series[],
  { start, end }: Span,
): Block | null {
  const within = ({ time, values }: Series) =>
    average(values.subarray(firstAtOrAfter(time, start), firstAtOrAfter(time, end)));
  const means = demands.map(within);
  const speeds = drift.map(within);
  const thrusts = Float64Array.from(means, (value, i) => value * maxThrust[i]!);
  const sum = thrusts.reduce((total, thrust) => total + thrust, 0);
  if (!(sum > 0) || speeds.some(Number.isNaN)) return null;
  return { shares: thrusts.map((thrust) => thrust / sum), demand: average(means), drift: speeds };
}

/** What a dozen blocks can show of correlation, down and up; more is chance. */
const CORRELATIONS = { least: -0.5, most: 0.8 };

/**
 * Correlation of neighbouring blocks over all motors together, freed of the bias -(1 + 4 r) / n of few blocks.
 * @see Kendall 1954, Biometrika 41(3/4):403-404
 */
export function neighbourCorrelation(residuals: readonly Float64Array[]): number {
  let [power, product] = [0, 0];
  for (const ofMotor of residuals) {
    for (const [k, value] of ofMotor.entries()) {
      power += value * value;
      if (k > 0) product += value * ofMotor[k - 1]!;
    }
  }
  if (power === 0) return 0;
  const count = residuals[0]!.length;
  const correlation = (count * (product / power) + 1) / Math.max(2, count - 4);
  return Math.min(CORRELATIONS.most, Math.max(CORRELATIONS.least, correlation));
}

/** NaN of nothing. */
const average = (values: ArrayLike<number>) => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
};

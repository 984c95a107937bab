import { AXES, type Axis } from "../aircraft/index.ts";
import { channelOf, type Flight } from "../flight/index.ts";
import {
  crossCorrelationDelay,
  decimate,
  dot,
  effectiveSampleSize,
  mean,
  meanInterval,
  quantile,
  SignalError,
  standardDeviation,
} from "../signal/index.ts";
import type { Detector, Estimate, EvidenceBase } from "./evidence.ts";
import { pairResponse, type ResponsePair, responseError } from "./response-pair.ts";
import { thinned } from "./thinned.ts";

/** How far an axis strayed from what was asked of it, in the air. */
export interface TrackingEvidence extends EvidenceBase {
  readonly kind: "tracking";
  readonly axis: Axis;
  readonly loop: "rate" | "attitude";
  /** rms of the set point about its mean, in the unit of the loop: how hard the axis was asked to move */
  readonly excitation: number;
}

/**
 * Measures, per axis and loop, the error between response and set point over the air time: its rms, the 95th
 * percentile of its size, its mean (bias), and the delay of the response behind the set point (the lag of highest
 * cross-correlation) where the set point moves enough to tell.
 *
 * Intervals of rms and bias come from blocks of at least two seconds taken as replicates (Student's t on block means),
 * because neighbouring samples are not independent; with fewer than four blocks there is none.
 */
export const tracking: Detector<TrackingEvidence> = {
  kind: "tracking",
  missing(flight) {
    return pairsOf(flight).length > 0 ? [] : ["rate.AXIS.measured", "rate.AXIS.setpoint"];
  },
  detect(flight) {
    return pairsOf(flight).flatMap(({ axis, loop }) => measureTracking(flight, axis, loop) ?? []);
  },
};

const LOOPS = ["rate", "attitude"] as const;

function pairsOf(flight: Flight) {
  return LOOPS.flatMap((loop) => AXES.map((axis) => ({ loop, axis }))).filter(({ loop, axis }) =>
    ["measured", "setpoint"].every((side) => channelOf(flight, `${loop}.${axis}.${side}`) !== undefined),
  );
}

/** Fewer samples than this tell nothing about a loop. */
const FEWEST_SAMPLES = 20;

function measureTracking(flight: Flight, axis: Axis, loop: TrackingEvidence["loop"]): TrackingEvidence | null {
  const measured = channelOf(flight, `${loop}.${axis}.measured`)!;
  const setpoint = channelOf(flight, `${loop}.${axis}.setpoint`)!;
  const pair = pairResponse(measured, setpoint, flight.airborne);
  if (pair.time.length < FEWEST_SAMPLES) return null;
  const unit = loop === "rate" ? "rad/s" : "rad";
  const error = responseError(pair, loop);
  const blocks = blockRanges(pair);
  const all = momentsOf(error);
  const inBlocks = blocks.map(({ from, to }) => momentsOf(error.subarray(from, to)));
  const squares = intervalOf(inBlocks.map(({ meanSquare }) => meanSquare));
  const offsets = intervalOf(inBlocks.map(({ mean }) => mean));
  const delay = delayOf(pair, measured.rate);
  return {
    kind: "tracking",
    axis,
    loop,
    start: pair.time[0]!,
    end: pair.time.at(-1)!,
    excitation: standardDeviation(pair.setpoint),
    confidence: 0.95,
    measures: {
      rms: {
        value: Math.sqrt(all.meanSquare),
        unit,
        ...(squares && { low: Math.sqrt(Math.max(0, squares.low)), high: Math.sqrt(squares.high) }),
      },
      p95: { value: quantile(thinned(error).map(Math.abs), 0.95), unit },
      bias: { value: all.mean, unit, ...offsets },
      ...(delay && { delay }),
    },
  };
}

type Range = { readonly from: number; readonly to: number };

/** s, shortest block; and the most blocks that a flight is cut into */
const SHORTEST_BLOCK = 2;
const MOST_BLOCKS = 30;

/** Blocks of about equal duration, none across a pause. */
function blockRanges({ time, stretches }: ResponsePair): Range[] {
  const flown = stretches.reduce((sum, { from, to }) => sum + time[to - 1]! - time[from]!, 0);
  const length = Math.max(SHORTEST_BLOCK, flown / MOST_BLOCKS);
  return stretches.flatMap(({ from, to }) => {
    // A slow log has blocks of two samples rather than empty ones.
    const count = Math.min((to - from) >> 1, Math.floor((time[to - 1]! - time[from]!) / length));
    return Array.from({ length: count }, (_, k) => ({
      from: from + Math.floor(((to - from) * k) / count),
      to: from + Math.floor(((to - from) * (k + 1)) / count),
    }));
  });
}

function momentsOf(values: Float64Array): { mean: number; meanSquare: number } {
  return { mean: mean(values), meanSquare: dot(values, values) / values.length };
}

function intervalOf(means: readonly number[]) {
  const interval = meanInterval(Float64Array.from(means));
  return interval.kind === "interval" ? { low: interval.low, high: interval.high } : undefined;
}

/** Samples that the delay is measured over, and Hz that they are thinned to: enough for milliseconds, and quick. */
const DELAY_SAMPLES = 1 << 14;
const DELAY_RATE = 200;
/** A weaker likeness of set point and response does not place the delay. */
const LEAST_CORRELATION = 0.5;
/** s; a loop slower than this does not follow at all */
const LONGEST_DELAY = 1;

function delayOf(pair: ResponsePair, rate: number): Estimate | undefined {
  const longest = pair.stretches.reduce((best, range) => (range.to - range.from > best.to - best.from ? range : best));
  const factor = Math.max(1, Math.floor((1.02 * rate) / DELAY_RATE));
  const to = Math.min(longest.to, longest.from + factor * DELAY_SAMPLES);
  if (to - longest.from < 3 * rate) return undefined;
  const asked = decimate(pair.setpoint.subarray(longest.from, to), rate, factor).values;
  const done = decimate(pair.measured.subarray(longest.from, to), rate, factor).values;
  const whole = lagOf(asked, done, rate / factor);
  if (whole === null) return undefined;
  const { delay, standardError } = whole;
  // The error of the lag supposes a white residual; what is left over here is slow, so fewer samples are independent.
  const residual = asked.map((value, i) => done[i]! - value);
  const ofRest = 1.96 * standardError * Math.sqrt(residual.length / effectiveSampleSize(residual));
  const reach = Math.max(ofRest, reachOfParts(asked, done, rate / factor));
  return { value: delay, unit: "s", low: Math.max(0, delay - reach), high: delay + reach };
}

/**
 * Where set point and response are alike enough to place it; null elsewhere, and where one of them rests or runs along a
 * straight line, which looks the same earlier or later.
 */
function lagOf(asked: Float64Array, done: Float64Array, rate: number) {
  try {
    const found = crossCorrelationDelay(asked, done, rate, { maxDelay: LONGEST_DELAY });
    return found.correlation < LEAST_CORRELATION || found.delay < 0 ? null : found;
  } catch (cause) {
    if (cause instanceof SignalError) return null;
    throw cause;
  }
}

/** Parts of the record that are looked at by themselves, and s that each has to hold: many of the longest delay. */
const PARTS = 8;
const SHORTEST_PART = 10;

/**
 * Half-width of the delay's 95 % interval from parts of the record as replicates (Student's t): a loop that is no pure
 * delay comes later in slow turns than in quick ones, which no single lag shows. 0 where too few parts place one.
 */
function reachOfParts(asked: Float64Array, done: Float64Array, rate: number): number {
  const count = Math.min(PARTS, Math.floor(asked.length / (SHORTEST_PART * rate)));
  const edges = Array.from({ length: count + 1 }, (_, k) => Math.floor((k * asked.length) / count));
  const lags = edges.slice(1).flatMap((to, k) => {
    const from = edges[k]!;
    return lagOf(asked.subarray(from, to), done.subarray(from, to), rate)?.delay ?? [];
  });
  const interval = meanInterval(Float64Array.from(lags));
  return interval.kind === "interval" ? (interval.high - interval.low) / 2 : 0;
}

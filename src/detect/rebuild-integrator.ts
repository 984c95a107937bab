import { addScaled, centred, dot, leastSquares, SignalError, studentTQuantile } from "../signal/index.ts";
import type { IndexRange } from "./air-time.ts";

/** One axis of a loop whose integral term is not logged: n samples. */
export interface LoopSignals {
  readonly time: Float64Array;
  /** set point less response, rad/s */
  readonly error: Float64Array;
  readonly measured: Float64Array;
  /** what the axis asked of the motors, in any unit: controller output, or the moment of the motor commands */
  readonly demand: Float64Array;
  /** 1 where anything was at a limit: the loop is not the usual one there */
  readonly isLimited: Uint8Array;
  /** 1 where the demand itself was cut off, so that it does not show what the controller summed up */
  readonly isCut: Uint8Array;
  readonly stretches: readonly IndexRange[];
}

/** An integral term made from what is logged, with the gains that explain it. */
export interface RebuiltIntegrator {
  /** in the unit of the demand */
  readonly integral: Float64Array;
  /** demand per rad/s, per rad, per rad/s^2, each with its 95 % interval */
  readonly gains: Readonly<
    Record<"proportional" | "integral" | "derivative", { value: number; low: number; high: number }>
  >;
  /** share of the demand's variance that the fit explains, 0..1 */
  readonly explained: number;
}

/** s; shorter clean stretches tell little beyond their own level */
const SHORTEST_CLEAN = 3;
/** s; after a limit the demand is not clean until the loop has settled */
const SETTLING = 0.5;
/** s, what the proportional and derivative parts are averaged over before they are taken off the demand */
const SMOOTHING = 0.12;

/**
 * Fits demand = P error + I (integral of error) - D (slope of the response) + a level of its own for each clean
 * stretch, by least squares. The integral term is then what the demand holds besides the other two; where the demand
 * is cut off, the last such value and the integral of the error from there on, up to the term's own limit.
 *
 * Intervals allow for residuals that go together from sample to sample: their count is cut down by the first-lag
 * correlation (Bayley and Hammersley).
 *
 * @param limit largest size of the integral term in the unit of the demand; null where unknown
 * @returns null where there is too little clean flight, or nothing to fit
 * @see Bayley and Hammersley 1946, J. R. Stat. Soc. Suppl. 8(2):184-197
 */
export function rebuildIntegrator(signals: LoopSignals, limit: number | null): RebuiltIntegrator | null {
  const { error, demand } = signals;
  const slope = slopes(signals);
  const fit = fitted(signals, slope);
  if (fit === null) return null;
  const [p, , d] = fit.gains;
  const besides = demand.slice();
  addScaled(besides, -p!.value, error);
  addScaled(besides, d!.value, slope);
  const rest = averaged(signals, besides);
  const integral = bridgedOver(signals, rest, fit.gains[1]!.value, limit ?? Number.POSITIVE_INFINITY);
  const [proportional, integralGain, derivative] = fit.gains;
  return {
    integral,
    gains: { proportional: proportional!, integral: integralGain!, derivative: derivative! },
    explained: fit.explained,
  };
}

/** Fewest rows that a fit is made of. */
const FEWEST_ROWS = 100;

function fitted(signals: LoopSignals, slope: Float64Array) {
  const clean = cleanStretches(signals);
  const rows = clean.reduce((sum, { from, to }) => sum + to - from, 0);
  if (rows < FEWEST_ROWS) return null;
  const design = Array.from({ length: 3 }, () => new Float64Array(rows));
  const target = new Float64Array(rows);
  let row = 0;
  for (const range of clean) {
    const part = (values: Float64Array) => values.subarray(range.from, range.to);
    const columns = [part(signals.error), integralOver(signals, range), part(slope)];
    // Centred, each stretch has a level of its own.
    for (const [k, values] of columns.entries()) design[k]!.set(centred(values), row);
    target.set(centred(part(signals.demand)), row);
    row += range.to - range.from;
  }
  try {
    const { coefficients, covariance, residuals } = leastSquares(design, target);
    const squares = dot(residuals, residuals);
    const lagged = dot(residuals.subarray(1), residuals);
    const correlation = Math.min(0.999, Math.max(0, lagged / squares));
    const inflation = (1 + correlation) / (1 - correlation);
    const t = studentTQuantile(0.975, Math.max(1, target.length / inflation - 4));
    const gains = Array.from(coefficients, (coefficient, k) => {
      const half = t * Math.sqrt(covariance.data[4 * k]! * inflation);
      // The derivative part works against the slope.
      const value = k === 2 ? -coefficient : coefficient;
      return { value, low: value - half, high: value + half };
    });
    return { gains, explained: 1 - squares / dot(target, target) };
  } catch (cause) {
    if (cause instanceof SignalError) return null;
    throw cause;
  }
}

/** The integral of the error from the start of a range on, rad. */
function integralOver({ time, error }: LoopSignals, { from, to }: IndexRange): Float64Array {
  const integral = new Float64Array(to - from);
  for (let i = from + 1; i < to; i++) {
    integral[i - from] = integral[i - from - 1]! + 0.5 * (error[i]! + error[i - 1]!) * (time[i]! - time[i - 1]!);
  }
  return integral;
}

/** Slope of the response by central differences, one-sided at the ends of a stretch. */
function slopes({ time, measured, stretches }: LoopSignals): Float64Array {
  const result = new Float64Array(time.length);
  for (const { from, to } of stretches) {
    for (let i = from; i < to; i++) {
      const before = i > from ? i - 1 : i;
      const after = i + 1 < to ? i + 1 : i;
      if (after > before) result[i] = (measured[after]! - measured[before]!) / (time[after]! - time[before]!);
    }
  }
  return result;
}

function cleanStretches({ time, isLimited, stretches }: LoopSignals): IndexRange[] {
  return stretches
    .flatMap(({ from, to }) => {
      const parts: { from: number; to: number }[] = [];
      let lastLimited = Number.NEGATIVE_INFINITY;
      for (let i = from; i < to; i++) {
        if (isLimited[i] === 1) lastLimited = time[i]!;
        if (time[i]! - lastLimited < SETTLING) continue;
        const last = parts.at(-1);
        if (last !== undefined && last.to === i) last.to = i + 1;
        else parts.push({ from: i, to: i + 1 });
      }
      return parts;
    })
    .filter(({ from, to }) => time[to - 1]! - time[from]! >= SHORTEST_CLEAN);
}

/** Running mean over `SMOOTHING` of what is not cut off, never across a pause. */
function averaged({ time, isCut, stretches }: LoopSignals, values: Float64Array): Float64Array {
  const result = values.slice();
  for (const { from, to } of stretches) {
    let first = from;
    let last = from;
    let sum = 0;
    let count = 0;
    for (let i = from; i < to; i++) {
      for (; last < to && time[last]! <= time[i]! + SMOOTHING / 2; last++) {
        if (isCut[last] === 1) continue;
        sum += values[last]!;
        count++;
      }
      for (; time[first]! < time[i]! - SMOOTHING / 2; first++) {
        if (isCut[first] === 1) continue;
        sum -= values[first]!;
        count--;
      }
      if (count > 0) result[i] = sum / count;
    }
  }
  return result;
}

function bridgedOver(signals: LoopSignals, rest: Float64Array, gain: number, limit: number): Float64Array {
  const { time, error, isCut, stretches } = signals;
  const result = rest.slice();
  for (const { from, to } of stretches) {
    for (let i = from + 1; i < to; i++) {
      if (isCut[i] !== 1) continue;
      const step = 0.5 * (error[i]! + error[i - 1]!) * (time[i]! - time[i - 1]!);
      result[i] = Math.max(-limit, Math.min(limit, result[i - 1]! + gain * step));
    }
  }
  return result;
}

import { leastSquares, type Matrix, matrix, SignalError, studentTQuantile } from "../signal/index.ts";
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
  const { time, error, demand } = signals;
  const slope = slopes(signals);
  const clean = cleanStretches(signals);
  const rows = clean.reduce((sum, { from, to }) => sum + to - from, 0);
  const design = matrix(Math.max(1, rows), 3);
  const target = new Float64Array(Math.max(1, rows));
  let row = 0;
  for (const { from, to } of clean) {
    const block = new Float64Array(4);
    const first = row;
    let sum = 0;
    for (let i = from; i < to; i++, row++) {
      if (i > from) sum += 0.5 * (error[i]! + error[i - 1]!) * (time[i]! - time[i - 1]!);
      design.data[3 * row] = error[i]!;
      design.data[3 * row + 1] = sum;
      design.data[3 * row + 2] = -slope[i]!;
      target[row] = demand[i]!;
      for (let k = 0; k < 3; k++) block[k] = block[k]! + design.data[3 * row + k]! / (to - from);
      block[3] = block[3]! + demand[i]! / (to - from);
    }
    // Taking off the stretch's means gives it a level of its own.
    for (let r = first; r < row; r++) {
      for (let k = 0; k < 3; k++) design.data[3 * r + k] = design.data[3 * r + k]! - block[k]!;
      target[r] = target[r]! - block[3]!;
    }
  }
  const fit = rows < 100 ? null : fitted(design, target);
  if (fit === null) return null;
  const [p, , d] = fit.gains;
  const rest = averaged(
    signals,
    demand.map((value, i) => value - p!.value * error[i]! + d!.value * slope[i]!),
  );
  const integral = bridgedOver(signals, rest, fit.gains[1]!.value, limit ?? Number.POSITIVE_INFINITY);
  const [proportional, integralGain, derivative] = fit.gains;
  return {
    integral,
    gains: { proportional: proportional!, integral: integralGain!, derivative: derivative! },
    explained: fit.explained,
  };
}

function fitted(design: Matrix, target: Float64Array) {
  try {
    const { coefficients, covariance, residuals } = leastSquares(design, target);
    const sum = (values: Float64Array) => values.reduce((total, value) => total + value * value, 0);
    const squares = sum(residuals);
    const lagged = residuals.subarray(1).reduce((total, value, i) => total + value * residuals[i]!, 0);
    const correlation = Math.min(0.999, Math.max(0, lagged / squares));
    const inflation = (1 + correlation) / (1 - correlation);
    const t = studentTQuantile(0.975, Math.max(1, target.length / inflation - 4));
    const gains = Array.from(coefficients, (value, k) => {
      const half = t * Math.sqrt(covariance.data[4 * k]! * inflation);
      return { value, low: value - half, high: value + half };
    });
    return { gains, explained: 1 - squares / sum(target) };
  } catch (cause) {
    if (cause instanceof SignalError) return null;
    throw cause;
  }
}

/** Slope of the response by central differences, one-sided at the ends of a stretch. */
function slopes({ time, measured, stretches }: LoopSignals): Float64Array {
  const result = new Float64Array(time.length);
  for (const { from, to } of stretches) {
    for (let i = from; i < to; i++) {
      const [before, after] = [Math.max(from, i - 1), Math.min(to - 1, i + 1)];
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

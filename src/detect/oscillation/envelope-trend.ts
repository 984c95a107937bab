import { dampingRatioOf, growthRate } from "../../signal/index.ts";
import type { Estimate } from "../evidence.ts";

export type Trend = "growing" | "sustained" | "decaying";

/** How the size of an oscillation changed. */
export interface EnvelopeTrend {
  readonly trend: Trend;
  /** 1/s of the envelope: while it grew, or while it died away, or over all of it */
  readonly growth: Estimate;
  /** share of critical damping that goes with the growth */
  readonly damping: Estimate;
  /** index range in which the growth was measured */
  readonly from: number;
  readonly to: number;
  /** largest envelope over that at the beginning, and at the end, of the oscillation */
  readonly rise: number;
  readonly fall: number;
}

/** Share of the largest envelope up to which the growth is measured: above it motors reach limits and it flattens. */
const FULL = 0.8;
/** Cycles that a slope needs; an abrupt beginning takes up to two to pass the filter. */
const FEWEST_CYCLES = { rise: 2.5, fall: 1.5 };
/** An envelope that changed by less than this factor stayed as it was. */
const CHANGE = 1.5;

/**
 * Growth of an envelope: the slope of its logarithm on the way up where it took its time to rise, else from the peak on
 * where it died away, else over all of it. Growing and decaying need an interval that leaves zero out.
 */
export function envelopeTrend(
  envelope: Float64Array,
  rate: number,
  { from, to, peak, frequency }: { from: number; to: number; peak: number; frequency: number },
): EnvelopeTrend {
  const most = envelope[peak]!;
  let full = from;
  while (full < peak && envelope[full]! < FULL * most) full++;
  let lastFull = to - 1;
  while (lastFull > peak && envelope[lastFull]! < FULL * most) lastFull--;
  const isLong = (a: number, b: number, cycles: number) => b - a >= (cycles * rate) / frequency;
  const rise = most / Math.max(envelope[from] ?? 0, 1e-12);
  const fall = most / Math.max(envelope[to - 1] ?? 0, 1e-12);
  const common = { rise, fall };
  if (isLong(from, full, FEWEST_CYCLES.rise) && rise >= CHANGE) {
    const growth = slopeOf(envelope, rate, from, full, frequency);
    if ((growth.low ?? 0) > 0) return finish("growing", growth, from, full, frequency, common);
  }
  if (isLong(peak, to, FEWEST_CYCLES.fall) && fall >= CHANGE && to - lastFull >= (to - from) / 3) {
    const growth = slopeOf(envelope, rate, peak, to, frequency);
    if ((growth.high ?? 0) < 0) return finish("decaying", growth, peak, to, frequency, common);
  }
  return finish("sustained", slopeOf(envelope, rate, from, to, frequency), from, to, frequency, common);
}

function finish(
  trend: Trend,
  growth: Estimate,
  from: number,
  to: number,
  frequency: number,
  common: Pick<EnvelopeTrend, "rise" | "fall">,
): EnvelopeTrend {
  const zeta = (sigma: number) => dampingRatioOf(sigma, frequency);
  const damping: Estimate = {
    value: zeta(growth.value),
    unit: "1",
    ...(growth.high !== undefined && { low: zeta(growth.high) }),
    ...(growth.low !== undefined && { high: zeta(growth.low) }),
  };
  return { trend, growth, damping, from, to, ...common };
}

/** Envelope values to the cycle that the slope is fitted over: what lies between them is the same news. */
const PER_CYCLE = 16;

function slopeOf(envelope: Float64Array, rate: number, from: number, to: number, frequency: number): Estimate {
  const step = Math.max(1, Math.floor(rate / frequency / PER_CYCLE));
  const thinned = Float64Array.from({ length: Math.max(0, Math.ceil((to - from) / step)) }, (_, i) =>
    Math.max(1e-12, envelope[from + i * step]!),
  );
  const cycles = ((to - from) / rate) * frequency;
  const cosines = Math.max(2, Math.min(6, Math.floor(cycles / 2)));
  if (thinned.length < 4 * cosines) return { value: 0, unit: "1/s" };
  const { value, low, high } = growthRate(thinned, rate / step, { cosines });
  return { value, unit: "1/s", low, high };
}

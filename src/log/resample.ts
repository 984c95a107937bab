import { decimate, SignalTooShortError } from "../signal/index.ts";
import type { Series, Span } from "./channel.ts";
import { rateOf, samplingOf } from "./clock/sampling.ts";

/** A stretch of a series without a gap: samples from index `from` up to, not including, `to`. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A stretch on a steady clock, free of gaps. */
export interface Uniform {
  /** s on the log's own clock, of the first value */
  readonly start: number;
  /** values per second, Hz */
  readonly rate: number;
  /** may be a view of the log's own: read, never write */
  readonly values: Float64Array;
}

/** Where to cut a series: at these gaps (a channel's own `gaps`), or at pauses longer than so many seconds. */
export type Cuts = readonly Span[] | number;

/**
 * Cuts a series at its gaps.
 *
 * @param cuts by default the pauses that the sampling of the series itself makes gaps
 * @returns index ranges, ascending, that together hold every sample
 */
export function stretchesOf({ time }: Series, cuts: Cuts = samplingOf(time).gaps): Stretch[] {
  if (time.length === 0) return [];
  if (typeof cuts !== "number" && cuts.length === 0) return [{ from: 0, to: time.length }];
  const stretches: Stretch[] = [];
  let from = 0;
  let gap = 0;
  for (let at = 1; at < time.length; at++) {
    const [start, end] = [time[at - 1]!, time[at]!];
    if (typeof cuts === "number") {
      if (end - start <= cuts) continue;
    } else {
      while (gap < cuts.length && cuts[gap]!.end <= start) gap++;
      if (gap === cuts.length || cuts[gap]!.start >= end) continue;
    }
    stretches.push({ from, to: at });
    from = at;
  }
  return [...stretches, { from, to: time.length }];
}

/**
 * Puts a series onto a steady clock, each stretch by itself: nothing is ever drawn across a gap.
 *
 * Between samples values lie on straight lines. To a rate below the series' own, the stretch is first put onto a whole
 * multiple of that rate not below its own, then low-passed and thinned (see `decimate`), so that faster motion does not fold into the result.
 *
 * @param rate values per second wanted, Hz
 * @param cuts as `stretchesOf` takes them; give a channel's `gaps`, which also know the gaps of the rows
 * @returns one piece for each stretch of at least two samples that is long enough for the low-pass, in order of time
 */
export function resample(series: Series, rate: number, cuts?: Cuts): Uniform[] {
  if (!(rate > 0)) throw new RangeError(`a rate above 0 Hz is needed, got ${rate}`);
  return stretchesOf(series, cuts)
    .filter(({ from, to }) => to - from >= 2)
    .map((stretch) => resampleStretch(series, stretch, rate))
    .filter((piece) => piece !== null);
}

/** A native rate this little above the wanted one is the same rate, measured. */
const SAME_RATE = 1.02;

function resampleStretch({ time, values }: Series, { from, to }: Stretch, rate: number): Uniform | null {
  const times = time.subarray(from, to);
  const own = rateOf(times);
  const factor = own > SAME_RATE * rate ? Math.ceil(own / rate / SAME_RATE) : 1;
  const fine = interpolate(times, values.subarray(from, to), rate * factor);
  if (factor === 1) return { start: times[0]!, rate, values: fine };
  try {
    return { start: times[0]!, rate, values: decimate(fine, rate * factor, factor).values };
  } catch (cause) {
    if (cause instanceof SignalTooShortError) return null;
    throw cause;
  }
}

/** Values on straight lines between samples, from the first sample on as long as samples reach. */
function interpolate(time: Float64Array, values: Float64Array, rate: number): Float64Array {
  if (isSteady(time, rate)) return values;
  const start = time[0]!;
  // A clock written in rounded digits may end a hair before the last step.
  const result = new Float64Array(Math.floor((time[time.length - 1]! - start) * rate + 1e-6) + 1);
  let left = 0;
  for (let i = 0; i < result.length; i++) {
    const moment = start + i / rate;
    while (left + 2 < time.length && time[left + 1]! <= moment) left++;
    const share = Math.min(1, (moment - time[left]!) / (time[left + 1]! - time[left]!));
    result[i] = values[left]! + share * (values[left + 1]! - values[left]!);
  }
  return result;
}

/** Share of the time between two samples by which a stamp may be off: no value changes more than by this much of a step. */
const STEADY = 1e-3;

/** Whether a clock already ticks at a rate, but for the rounding of its digits. */
function isSteady(time: Float64Array, rate: number): boolean {
  const start = time[0]!;
  for (let i = 0; i < time.length; i++) if (Math.abs((time[i]! - start) * rate - i) > STEADY) return false;
  return true;
}

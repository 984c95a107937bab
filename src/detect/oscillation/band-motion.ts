import { analyticSignal, butterworth, type ComplexArray, filterZeroPhase, nextPowerOfTwo } from "../../signal/index.ts";

/** Half-width of the band in which a mode is measured, as a factor to either side of its frequency. */
export const BAND = 1.5;

/** A signal in a band as a complex one: its size is the envelope, its angle the phase. */
export interface BandMotion extends ComplexArray {
  readonly envelope: Float64Array;
}

/**
 * The part of a signal within a band about a frequency (Butterworth of order 2, zero phase) and its analytic signal.
 * The ends are continued by odd reflection over some cycles or more, so that a wave that is cut off keeps its size; within half
 * a cycle of an end the envelope is still only roughly right.
 *
 * @param values n uniformly spaced values
 * @param rate values per second, Hz
 * @param factor half-width of the band, see `BAND`
 */
export function bandMotion(values: Float64Array, rate: number, frequency: number, factor = BAND): BandMotion {
  const count = values.length;
  const reach = Math.min(count - 1, Math.round((PADDING_CYCLES * rate) / frequency));
  // A power of two, because its transform takes a sixth of the time of another length's.
  const extended = new Float64Array(nextPowerOfTwo(count + 2 * reach));
  extended.set(values, reach);
  for (let i = 1; i <= reach; i++) extended[reach - i] = 2 * values[0]! - values[i]!;
  for (let i = 1; reach + count - 1 + i < extended.length; i++) {
    extended[reach + count - 1 + i] = 2 * values[count - 1]! - values[Math.max(0, count - 1 - i)]!;
  }
  const band = [frequency / factor, Math.min(frequency * factor, 0.49 * rate)] as const;
  const { re, im } = analyticSignal(filterZeroPhase(butterworth(2, band, rate), extended));
  const [a, b] = [re.slice(reach, reach + count), im.slice(reach, reach + count)];
  const envelope = new Float64Array(count);
  for (let i = 0; i < count; i++) envelope[i] = Math.sqrt(a[i]! ** 2 + b[i]! ** 2);
  return { re: a, im: b, envelope };
}

const PADDING_CYCLES = 4;

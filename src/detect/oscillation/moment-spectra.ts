import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import type { Span } from "../../log/channel.ts";
import type { Uniform } from "../../log/resample.ts";
import { axisMotion } from "./axis-motion.ts";
import { type MomentChannel, momentChannel } from "./motor-moment.ts";
import { onWindow } from "./on-window.ts";
import { picked, type SetPointSpectra, setPointSpectra, sumOf } from "./set-point-spectra.ts";
import { unwrapped } from "./unwrapped.ts";

/** What moment and motion of an axis owe to its attitude set point, at n frequencies at which they owe much to it. */
export interface MomentSpectra extends Pick<MomentChannel, "from" | "isInNewtonMetres"> {
  /** rad/s, n of them, rising */
  readonly omegas: readonly number[];
  readonly spectra: SetPointSpectra;
  /** how many segments they are the sum of */
  readonly segments: number;
}

/** s, of a segment: many times the motors' lag, short enough for many in a flight */
const SEGMENT = 4;
/** s to either side of what is left out */
const CLEAR = 1;
/** Hz, and share of the sample rate, between which the answer is compared */
const BAND = { low: 0.5, high: 10, share: 0.3 };
/** Share of the moment's power that the set point has to account for at a frequency. */
const EXCITED = 0.5;
const FEWEST_FREQUENCIES = 5;
const FEWEST_SEGMENTS = 10;

/**
 * Cross spectra of an axis with its attitude set point, over half-overlapping segments outside some spans.
 * @returns null where channels are missing, or the set point moved too little
 */
export function momentSpectra(flight: Flight, axis: Axis, without: readonly Span[]): MomentSpectra | null {
  const motion = axisMotion(flight, axis);
  const moment = momentChannel(flight, axis);
  const asked = channelOf(flight, `attitude.${axis}.setpoint`);
  if (motion === null || moment === null || asked === undefined) return null;
  const length = Math.round(SEGMENT * motion.rate);
  const setpoint = unwrapped(asked);
  const isClear = (start: number) =>
    without.every((span) => start + SEGMENT < span.start - CLEAR || start > span.end + CLEAR);
  const bins = binsOf(length, Math.min(motion.rate, moment.rate, asked.rate, motion.channel.rate));
  const all: SetPointSpectra[] = [];
  for (const piece of motion.pieces) {
    const [inputs, instruments] = [moment, setpoint].map((channel) => segmentsOf(channel, piece, length)) as [
      SegmentAt,
      SegmentAt,
    ];
    for (let from = 0; from + length <= piece.values.length; from += length >> 1) {
      if (!isClear(piece.start + from / piece.rate)) continue;
      const [input, instrument] = [inputs(from), instruments(from)];
      if (input && instrument)
        all.push(setPointSpectra(piece.values.subarray(from, from + length), input, instrument, piece.rate, bins));
    }
  }
  if (all.length < FEWEST_SEGMENTS) return null;
  const { rm, rr, mm, ...others } = sumOf(all);
  const used = [...bins.keys()].filter((k) => rm.re[k]! ** 2 + rm.im[k]! ** 2 >= EXCITED * rr[k]! * mm[k]!);
  if (used.length < FEWEST_FREQUENCIES) return null;
  return {
    from: moment.from,
    isInNewtonMetres: moment.isInNewtonMetres,
    omegas: used.map((k) => (2 * Math.PI * bins[k]! * motion.rate) / length),
    spectra: picked({ rm, rr, mm, ...others }, used),
    segments: all.length,
  };
}

/** A channel in one segment of a piece, by the segment's first value; null where it has a gap there. */
type SegmentAt = (from: number) => Float64Array | null;

/** Segments overlap, so a channel is put onto the times of a whole piece at once where it has no gap in all of it. */
function segmentsOf(
  channel: Parameters<typeof onWindow>[0],
  { start, rate, values }: Uniform,
  length: number,
): SegmentAt {
  const whole = onWindow(channel, start, rate, values.length);
  if (whole === null) return (from) => onWindow(channel, start + from / rate, rate, length);
  return (from) => whole.subarray(from, from + length);
}

function binsOf(length: number, rate: number): number[] {
  const high = Math.min(BAND.high, BAND.share * rate);
  const bins: number[] = [];
  for (let bin = Math.ceil(BAND.low * SEGMENT); bin <= high * SEGMENT && bin < length / 2; bin++) bins.push(bin);
  return bins;
}

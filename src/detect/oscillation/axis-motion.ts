import { AXES, type Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight, onceAFlight } from "../../flight/index.ts";
import type { Channel, Span } from "../../log/index.ts";
import type { Uniform } from "../../log/resample.ts";
import { uniformPieces } from "../../log/uniform-pieces.ts";
import { differentiate } from "../../signal/index.ts";
import { excursionsOf, isKnock, isLoss } from "../upset/excursions.ts";

/** How an axis turned while in the air, on a steady clock: pieces without a gap, rad/s. */
export interface AxisMotion {
  readonly axis: Axis;
  /** the channel that was measured; a rate that is not logged is the slope of the attitude */
  readonly channel: Channel;
  readonly isDerived: boolean;
  /** values per second, Hz */
  readonly rate: number;
  /** Hz; faster motion is not looked for */
  readonly highest: number;
  readonly pieces: readonly Uniform[];
}

/** Hz; faster motion of a body this size is vibration, which no loop can follow, and a kind of its own */
const FASTEST = 50;
/** share of the sample rate up to which a wave still has its shape (the contract's upper end) */
const HIGHEST_SHARE = 0.4;

const byAxis = onceAFlight((flight) => new Map(AXES.map((axis) => [axis, motionOf(flight, axis)])));

/** The turning of an axis; null where neither its rate nor its attitude is logged fast enough. Computed once a flight. */
export const axisMotion = (flight: Flight, axis: Axis): AxisMotion | null => byAxis(flight).get(axis)!;

function motionOf(flight: Flight, axis: Axis): AxisMotion | null {
  const measured = channelOf(flight, `rate.${axis}.measured`);
  // Yaw wraps, and a slope across the wrap is none.
  const channel = measured ?? (axis === "yaw" ? undefined : channelOf(flight, `attitude.${axis}.measured`));
  if (channel === undefined) return null;
  const highest = Math.min(FASTEST, HIGHEST_SHARE * channel.rate);
  const rate = Math.min(channel.rate, FASTEST / HIGHEST_SHARE);
  // A tumble or a kick is no wave: it is left to the upset, and what comes before and after is looked at by itself.
  const upsets = excursionsOf(flight, axis).filter((one) => isLoss(one) || isKnock(one));
  const pieces = flight.airborne
    .map((span) => clearOfGround(span, flight))
    .flatMap((span) => without(span, upsets))
    .flatMap((span) => uniformPieces(channel, span, rate));
  const isDerived = measured === undefined;
  return {
    axis,
    channel,
    isDerived,
    rate,
    highest,
    pieces: isDerived
      ? pieces.map((piece) => ({ ...piece, values: differentiate(piece.values, rate, slopeBandwidth(rate)) }))
      : pieces,
  };
}

/** Hz up to which the slope of an attitude is taken: half of what its differences still show truly. */
const slopeBandwidth = (rate: number) => Math.min(20, 0.15 * rate);

/** s after lifting off and before touching down in which the ground shakes the aircraft */
const GROUND_TIME = 0.8;
/** s; air time that begins or ends this near to the data does so because the data does */
const EDGE = 0.1;

function clearOfGround({ start, end }: Span, { span }: Flight): Span {
  return {
    start: start - span.start > EDGE ? start + GROUND_TIME : start,
    end: span.end - end > EDGE ? end - GROUND_TIME : end,
  };
}

/** What is left of a span; a loss of control takes the rest with it. */
function without(span: Span, upsets: readonly { start: number; end: number; recovery: number | null }[]): Span[] {
  const parts: Span[] = [];
  let from = span.start;
  for (const { start, end, recovery } of upsets) {
    if (start > from) parts.push({ start: from, end: Math.min(start, span.end) });
    from = Math.max(from, recovery === null ? span.end : end);
  }
  return [...parts, { start: from, end: span.end }].filter(({ start, end }) => end > start);
}

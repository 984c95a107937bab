import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import { wrapAngle } from "../../signal/index.ts";
import { alignChannels } from "../align-channels.ts";

/** How fast the set points let an axis turn, on the times of its rate. */
export interface AskedRate {
  /** rad/s, size */
  readonly rate: Float64Array;
  /** 1 where the attitude set point jumped: no aircraft can follow that */
  readonly isJump: Uint8Array;
  /** rad, attitude less its set point; null where either is not logged */
  readonly error: Float64Array | null;
}

/** rad in one interval between samples of the set point: faster than a stick moves or a planner plans (common practice) */
const JUMP = 0.35;

/** s over which the slope of the attitude set point is taken, so that its noise does not pass for an order */
const BASELINE = 0.1;

/**
 * The larger of the rate set point and of the slope of the attitude set point. A jump of the attitude set point counts
 * as an event, not as a rate that was asked for.
 */
export function askedRate(flight: Flight, axis: Axis, time: Float64Array): AskedRate {
  const rate = new Float64Array(time.length);
  const isJump = new Uint8Array(time.length);
  const rates = channelOf(flight, `rate.${axis}.setpoint`);
  if (rates !== undefined) {
    const { values } = rates.series;
    heldOn(rates.series.time, time, (sample, i) => {
      rate[i] = Math.abs(values[sample]!);
    });
  }
  const angles = channelOf(flight, `attitude.${axis}.setpoint`);
  if (angles !== undefined) {
    const own = angles.series;
    let back = 0;
    let jumped = Number.NEGATIVE_INFINITY;
    heldOn(own.time, time, (sample, i, isNew) => {
      while (own.time[sample]! - own.time[back]! > BASELINE && back < sample - 1) back++;
      if (sample === 0) return;
      if (isNew && Math.abs(wrapAngle(own.values[sample]! - own.values[sample - 1]!)) > JUMP) {
        isJump[i] = 1;
        jumped = own.time[sample]!;
      }
      if (jumped > own.time[back]!) return;
      const turned = Math.abs(wrapAngle(own.values[sample]! - own.values[back]!));
      rate[i] = Math.max(rate[i]!, turned / (own.time[sample]! - own.time[back]!));
    });
  }
  return { rate, isJump, error: errorOf(flight, axis, time) };
}

/** Walks two clocks: for each moment the last sample at or before it, and whether the moment is its first. */
function heldOn(from: Float64Array, to: Float64Array, visit: (sample: number, i: number, isNew: boolean) => void) {
  let sample = -1;
  for (let i = 0; i < to.length; i++) {
    const before = sample;
    while (sample + 1 < from.length && from[sample + 1]! <= to[i]!) sample++;
    if (sample >= 0) visit(sample, i, sample !== before);
  }
}

function errorOf(flight: Flight, axis: Axis, time: Float64Array): Float64Array | null {
  const measured = channelOf(flight, `attitude.${axis}.measured`);
  const setpoint = channelOf(flight, `attitude.${axis}.setpoint`);
  if (measured === undefined || setpoint === undefined) return null;
  const error = new Float64Array(time.length).fill(Number.NaN);
  const { time: own, values } = alignChannels([measured, setpoint], flight.airborne);
  heldOn(own, time, (sample, i) => {
    error[i] = wrapAngle(values[0]![sample]! - values[1]![sample]!);
  });
  return error;
}

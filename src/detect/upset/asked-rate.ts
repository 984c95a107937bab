import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import { wrapAngle } from "../../signal/index.ts";
import { alignChannels } from "../align-channels.ts";
import type { SetPointJump } from "./set-point-jumps.ts";

/** How fast the set points let an axis turn, on the times of its rate. */
export interface AskedRate {
  /** rad/s, size */
  readonly rate: Float64Array;
  /** rad, attitude less its set point; null where either is not logged */
  readonly error: Float64Array | null;
}

/** s, for how long after a set point the axis may still be turning because of it */
export const AFTER_SETPOINT = 0.6;

/** s over which the slope of the attitude set point is taken, so that its noise does not pass for an order */
const BASELINE = 0.1;

/**
 * The larger of the rate set point and of the slope of the attitude set point. A jump of the attitude set point counts
 * as an event, not as a rate that was asked for; nor does what it does while the axis answers the jump, because a set
 * point that is made from the motion swings along with it.
 *
 * @param jumps those of the axis, in order of time
 */
export function askedRate(flight: Flight, axis: Axis, time: Float64Array, jumps: readonly SetPointJump[]): AskedRate {
  const rate = new Float64Array(time.length);
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
    let [back, jump] = [0, -1];
    heldOn(own.time, time, (sample, i) => {
      while (own.time[sample]! - own.time[back]! > BASELINE && back < sample - 1) back++;
      while (jump + 1 < jumps.length && jumps[jump + 1]!.at <= own.time[sample]!) jump++;
      if (sample === 0 || (jump >= 0 && own.time[back]! - jumps[jump]!.at < AFTER_SETPOINT)) return;
      const turned = Math.abs(wrapAngle(own.values[sample]! - own.values[back]!));
      rate[i] = Math.max(rate[i]!, turned / (own.time[sample]! - own.time[back]!));
    });
  }
  return { rate, error: errorOf(flight, axis, time) };
}

/** Walks two clocks: for each moment the last sample at or before it. */
function heldOn(from: Float64Array, to: Float64Array, visit: (sample: number, i: number) => void) {
  let sample = -1;
  for (let i = 0; i < to.length; i++) {
    while (sample + 1 < from.length && from[sample + 1]! <= to[i]!) sample++;
    if (sample >= 0) visit(sample, i);
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

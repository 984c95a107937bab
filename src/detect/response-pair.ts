import type { Channel, Span } from "../log/channel.ts";
import { addScaled, wrapAngle } from "../signal/index.ts";
import type { IndexRange } from "./air-time.ts";
import { alignChannels } from "./align-channels.ts";

/** A response and what was asked for, sample by sample on the response's own times. */
export interface ResponsePair {
  readonly time: Float64Array;
  readonly measured: Float64Array;
  /** the set point at those times, linear between its samples, never across one of its gaps */
  readonly setpoint: Float64Array;
  /** half-open index ranges without a pause, in order */
  readonly stretches: readonly IndexRange[];
}

/** What the response missed by: response less set point, angles (rad) the short way round. */
export function responseError({ measured, setpoint }: ResponsePair, loop: "rate" | "attitude"): Float64Array {
  const error = measured.slice();
  addScaled(error, -1, setpoint);
  if (loop === "attitude") for (let i = 0; i < error.length; i++) error[i] = wrapAngle(error[i]!);
  return error;
}

/** Pairs a response with its set point over some spans; samples in a gap of either are left out. */
export function pairResponse(measured: Channel, setpoint: Channel, spans: readonly Span[]): ResponsePair {
  const { time, values, stretches } = alignChannels([measured, setpoint], spans);
  return { time, measured: values[0]!, setpoint: values[1]!, stretches };
}

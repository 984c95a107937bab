import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight, onceAFlight } from "../../flight/index.ts";
import type { Channel } from "../../log/channel.ts";
import { mean } from "../../signal/index.ts";
import { momentAbout, motorThrusts } from "../motor-thrusts.ts";
import type { ModeMeasures } from "./mode-measures.ts";
import { onWindow } from "./on-window.ts";

/** The moment that was commanded about an axis in a mode's window. */
export interface CommandedMoment {
  readonly from: "motors" | "output";
  readonly values: Float64Array;
  /**
   * rad/s² that one unit of `values` gives an aircraft of usual inertia, with the factor to either side within which
   * real ones lie; null where the unit says nothing of size
   */
  readonly effect: { readonly value: number; readonly factor: number } | null;
  /** s between its samples */
  readonly interval: number;
}

const GRAVITY = 9.81;
/**
 * Moment of inertia over mass times the squared mean distance of the motors: what multirotors from 30 g to 25 kg have
 * lies within the factor of the value (common practice: most of the mass sits well inside the motors' circle).
 */
const INERTIA = { roll: 0.17, pitch: 0.17, yaw: 0.3 } as const;
const INERTIA_FACTOR = 2.2;

/** The moment that was commanded about an axis throughout the flight. */
export interface MomentChannel
  extends Pick<Channel, "series" | "gaps" | "rate">,
    Pick<CommandedMoment, "from" | "effect"> {
  readonly isInNewtonMetres: boolean;
}

/** The commanded moment in a mode's window; null where it is not logged throughout. */
export function commandedMoment(flight: Flight, axis: Axis, mode: ModeMeasures): CommandedMoment | null {
  for (const of of [projected, output]) {
    const channel = of(flight, axis);
    const values = channel && onWindow(channel, mode.windowStart, mode.rate, mode.band.re.length);
    if (channel && values) return { from: channel.from, values, effect: channel.effect, interval: 1 / channel.rate };
  }
  return null;
}

/** Motor commands projected on the axis where they and the geometry are known, else the controller's output. */
export const momentChannel = (flight: Flight, axis: Axis): MomentChannel | null =>
  projected(flight, axis) ?? output(flight, axis);

const projections = onceAFlight((_flight: Flight) => new Map<Axis, MomentChannel | null>());

/** Worked out once an axis: both the window of a mode and the whole flight are looked at. */
function projected(flight: Flight, axis: Axis): MomentChannel | null {
  const known = projections(flight);
  if (!known.has(axis)) known.set(axis, project(flight, axis));
  return known.get(axis)!;
}

function project(flight: Flight, axis: Axis): MomentChannel | null {
  const motors = motorThrusts(flight);
  if (motors === null || flight.aircraft === null) return null;
  const { effectiveness, time, total, stretches, interval } = motors;
  const gaps = stretches.slice(1).map(({ from }) => ({ start: time[from - 1]!, end: time[from]! }));
  // In hover the thrusts carry the weight, so their sum stands for mass times gravity, in whatever unit.
  const weight = mean(total);
  const effect = weight > 0 ? effectOf(flight, axis, GRAVITY / weight) : null;
  return {
    from: "motors",
    series: { time, values: momentAbout(motors, axis) },
    gaps,
    rate: 1 / interval,
    effect: axis === "yaw" && !effectiveness.isTorqueKnown ? null : effect,
    isInNewtonMetres: effectiveness.isInNewtons && (axis !== "yaw" || effectiveness.isTorqueKnown),
  };
}

function output(flight: Flight, axis: Axis): MomentChannel | null {
  const channel = channelOf(flight, `rate.${axis}.output`);
  if (channel === undefined) return null;
  const { series, gaps, rate, unit } = channel;
  const mass = flight.aircraft?.mass?.value;
  const effect = unit === "N*m" && mass !== undefined ? effectOf(flight, axis, 1 / mass) : null;
  return { from: "output", series, gaps, rate, effect, isInNewtonMetres: unit === "N*m" };
}

/** @param perMass 1/kg times what one unit is in N m */
function effectOf(flight: Flight, axis: Axis, perMass: number): CommandedMoment["effect"] {
  const motors = flight.aircraft?.motors ?? [];
  const square = mean(Float64Array.from(motors, ({ x, y }) => x * x + y * y));
  return square > 0 ? { value: perMass / (INERTIA[axis] * square), factor: INERTIA_FACTOR } : null;
}

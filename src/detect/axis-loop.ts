import { AXES, type Axis } from "../aircraft/index.ts";
import { channelOf, commandedMotors, commandLimits, type Flight, onceAFlight } from "../flight/index.ts";
import type { Channel } from "../log/channel.ts";
import { sameTimes } from "../log/clock/same-times.ts";
import { addScaled } from "../signal/index.ts";
import type { IndexRange } from "./air-time.ts";
import { alignChannels } from "./align-channels.ts";
import { authoritySeries } from "./authority-series.ts";
import { markBeyond } from "./beyond.ts";
import { type Blocks, blockSize, blocksOf } from "./block-means.ts";
import { largestSize } from "./largest-size.ts";
import { momentAbout, motorThrusts, ROTOR_PACE } from "./motor-thrusts.ts";
import { quantisationStep } from "./quantisation-step.ts";

/**
 * The rate loop of one axis in the air, everything on one clock. Of a fast log the means over blocks of samples: an
 * integrator moves slowly beside those, and what is fitted to each other has to be averaged alike.
 */
export interface AxisLoop {
  readonly axis: Axis;
  readonly time: Float64Array;
  /** rad/s, set point less response */
  readonly error: Float64Array;
  readonly measured: Float64Array;
  /** integral term as logged, its unit */
  readonly integrator: Float64Array | null;
  /** controller output of the axis as logged, its unit */
  readonly output: Float64Array | null;
  /** moment that the motor commands stand for, as a share of what is left in hover; null without an aircraft file */
  readonly moment: Float64Array | null;
  /** 1 where a motor or the controller output is at a limit */
  readonly isLimited: Uint8Array;
  /** 1 where the controller output itself is at its limit */
  readonly isOutputFull: Uint8Array;
  readonly stretches: readonly IndexRange[];
}

/** The loops of which set point, response and something that can be at a limit are logged. Read once a flight. */
export const axisLoops = onceAFlight((flight: Flight): readonly AxisLoop[] => {
  const atLimit = motorsAtLimit(flight);
  return AXES.flatMap((axis) => readLoop(flight, axis, atLimit) ?? []);
});

/** 1 at each of some times where any motor is at its ceiling or on its floor, from the commands at those times. */
type AtLimit = (time: Float64Array, commands: readonly Float64Array[]) => Uint8Array;

function readLoop(flight: Flight, axis: Axis, atLimit: AtLimit): AxisLoop | null {
  const get = (part: string) => channelOf(flight, `rate.${axis}.${part}`);
  const [setpoint, measured, integrator, output] = [get("setpoint"), get("measured"), get("integrator"), get("output")];
  if (setpoint === undefined || measured === undefined) return null;
  const motors = commandedMotors(flight).map((motor) => channelOf(flight, `motor.${motor}.command`)!);
  const reference = integrator ?? output ?? motors[0];
  if (reference === undefined) return null;
  const others = [setpoint, measured, integrator, output].filter((channel) => channel !== undefined);
  const all = [reference, ...others, ...motors] as [Channel, ...Channel[]];
  const aligned = alignChannels(all, flight.airborne);
  if (aligned.time.length < 2) return null;
  const atRow = (channel: Channel) => aligned.values[all.indexOf(channel)]!;
  const commands = motors.map(atRow);
  const blocks = blocksOf(aligned.stretches, blockSize(aligned.time, aligned.stretches, ROTOR_PACE));
  const time = blocks.mean(aligned.time);
  const valuesOf = (channel: Channel | undefined) => (channel === undefined ? null : blocks.mean(atRow(channel)));
  const response = valuesOf(measured)!;
  const isLimited = blocks.any(atLimit(aligned.time, commands)).slice();
  const isOutputFull = output === undefined ? new Uint8Array(time.length) : blocks.any(fullFlags(atRow(output)));
  for (let i = 0; i < isLimited.length; i++) if (isOutputFull[i] === 1) isLimited[i] = 1;
  return {
    axis,
    time,
    error: differenceOf(valuesOf(setpoint)!, response),
    measured: response,
    integrator: valuesOf(integrator),
    output: valuesOf(output),
    moment: momentOf(flight, axis, { blocks, time, rows: aligned.time }),
    isLimited,
    isOutputFull,
    stretches: blocks.stretches,
  };
}

function differenceOf(a: Float64Array, b: Float64Array): Float64Array {
  const difference = a.slice();
  addScaled(difference, -1, b);
  return difference;
}

/** The axes of most logs are on one clock, and the commands at its times the same: they are looked at once. */
function motorsAtLimit(flight: Flight): AtLimit {
  let known: { time: Float64Array; flags: Uint8Array } | null = null;
  return (time, commands) => {
    if (known === null || !sameTimes(known.time, time))
      known = { time, flags: limitFlags(flight, commands, time.length) };
    return known.flags;
  };
}

function limitFlags(flight: Flight, commands: readonly Float64Array[], count: number): Uint8Array {
  const flags = new Uint8Array(count);
  const limits = commandLimits(flight.log, flight.aircraft);
  if (limits === null) return flags;
  for (const command of commands) {
    const slack = quantisationStep(command, limits.max - limits.min) / 2;
    const top = limits.topIsHeld ? limits.max - slack : Number.POSITIVE_INFINITY;
    const bottom = limits.from === "aircraft" ? limits.idle + slack : Number.NEGATIVE_INFINITY;
    markBeyond(flags, command, bottom, top);
  }
  return flags;
}

/** Samples at exactly the largest output that only a limit explains: a free signal meets its extreme once. */
const SAMPLES_AT_LIMIT = 5;

/** 1 where the output is at its largest size, if it comes there again and again. */
function fullFlags(output: Float64Array): Uint8Array {
  const most = largestSize(output);
  const isFull = new Uint8Array(output.length);
  let count = 0;
  for (let i = 0; i < output.length; i++) {
    if (most === 0 || Math.abs(output[i]!) < most * (1 - 1e-6)) continue;
    isFull[i] = 1;
    count++;
  }
  return count >= SAMPLES_AT_LIMIT ? isFull : new Uint8Array(output.length);
}

/** The clock of a loop, before and after its samples were put into blocks. */
interface InBlocks {
  readonly blocks: Blocks;
  /** s, means of `rows` */
  readonly time: Float64Array;
  /** s, before they were put into blocks */
  readonly rows: Float64Array;
}

/** The moment that the motor commands stand for, block by block, as a share of what is left in hover. */
function momentOf(flight: Flight, axis: Axis, { blocks, time, rows }: InBlocks): Float64Array | null {
  const motors = motorThrusts(flight);
  const authority = authoritySeries(flight);
  const reach = authority?.axes.find((one) => one.axis === axis)?.inHover;
  if (motors === null || !authority || reach === undefined) return null;
  // Where nothing was left out the motors come in the same blocks, and the mean moment is that of the mean thrusts.
  const moments = sameTimes(authority.motors.time, time)
    ? momentAbout(authority.motors, axis)
    : blocks.mean(heldAt(rows, motors.time, momentAbout(motors, axis)));
  for (let k = 0; k < moments.length; k++) moments[k] = moments[k]! / reach;
  return moments;
}

/** The last value at each of some times. */
function heldAt(times: Float64Array, own: Float64Array, values: Float64Array): Float64Array {
  const held = new Float64Array(times.length);
  for (let k = 0, at = 0; k < times.length; k++) {
    while (at < own.length - 1 && own[at + 1]! <= times[k]!) at++;
    held[k] = values[at]!;
  }
  return held;
}

import { channelOf, type Flight } from "../../flight/index.ts";
import type { Channel } from "../../log/channel.ts";
import { standardDeviation } from "../../signal/index.ts";
import { alignChannels } from "../align-channels.ts";
import type { MotorThrusts } from "../motor-thrusts.ts";
import type { Candidate } from "./steps-in.ts";
import { SETTLING } from "./windows.ts";

/** Standard deviations of the turning before it that a knock has to stand out by; s over which it builds up. */
const KNOCK = 4;
const KNOCK_TIME = 0.06;
/** s before the step of the commands in which the knock can lie */
const LONGEST_WAIT = 1.2;

/** s, the largest turn towards the motor around a step of the commands; null where it does not stand out or no rates are logged. */
export function knockAt(
  flight: Flight,
  { effectiveness: { matrix: b } }: MotorThrusts,
  { motor, at, isYawKnown }: Candidate,
): number | null {
  const [roll, pitch] = [channelOf(flight, "rate.roll.measured"), channelOf(flight, "rate.pitch.measured")];
  if (roll === undefined || pitch === undefined) return null;
  const asked = [channelOf(flight, "rate.roll.setpoint"), channelOf(flight, "rate.pitch.setpoint")];
  // In a turn the body is turned on purpose as well: what was asked for is no knock.
  const isAsked = !isYawKnown && asked.every((channel) => channel !== undefined);
  const around = { start: at - 4, end: at + SETTLING + 1 };
  const channels = [roll, pitch, ...(isAsked ? (asked as Channel[]) : [])] as [Channel, ...Channel[]];
  const { time, values } = alignChannels(channels, [around]);
  // Less thrust at a motor turns the body against that motor's own moments.
  const [perRoll, perPitch] = [1, 2].map((row) => -b.data[row * b.columns + motor - 1]!) as [number, number];
  const turn = (i: number) =>
    perRoll * (values[0]![i]! - (values[2]?.[i] ?? 0)) + perPitch * (values[1]![i]! - (values[3]?.[i] ?? 0));
  const lag = Math.max(1, Math.round(KNOCK_TIME * roll.rate));
  let best: { i: number; jump: number } | null = null;
  const quiet: number[] = [];
  for (let i = 0; i + lag < time.length; i++) {
    const jump = (turn(i + lag) - turn(i)) / (time[i + lag]! - time[i]!);
    if (time[i]! < at - LONGEST_WAIT) quiet.push(jump);
    else if (best === null || jump > best.jump) best = { i, jump };
  }
  if (best === null || quiet.length < 10) return null;
  return best.jump > KNOCK * standardDeviation(Float64Array.from(quiet)) ? time[best.i]! : null;
}

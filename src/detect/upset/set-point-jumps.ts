import type { Axis } from "../../aircraft/index.ts";
import { channelOf, type Flight } from "../../flight/index.ts";
import { wrapAngle } from "../../signal/index.ts";

/** An attitude set point that went somewhere else from one of its samples to the next. */
export interface SetPointJump {
  /** s, of the first sample after it */
  readonly at: number;
  /** rad, signed */
  readonly size: number;
}

/** rad from one sample to the next, and rad/s: faster than a stick moves or a planner plans (common practice) */
const JUMP = { size: 0.35, rate: 7 };
/** Times the largest change of one sample elsewhere in the flight: the steps of a doublet have others like them. */
const OUTSTANDING = 3;
/** s about a jump in which the set point still answers to what the jump did */
const AFTERMATH = 1;

/**
 * Jumps of an axis' attitude set point, in order of time: changes within one sample of more than 20 deg (more where
 * samples are further apart than 0.05 s) that are also several times as large as any elsewhere in the flight. A change across a gap is none. Empty where it is not logged.
 */
export function setPointJumps(flight: Flight, axis: Axis): SetPointJump[] {
  const channel = channelOf(flight, `attitude.${axis}.setpoint`);
  if (channel === undefined) return [];
  const { time, values } = channel.series;
  const changeAt = (i: number) => wrapAngle(values[i]! - values[i - 1]!);
  const isAcrossGap = (i: number) => channel.gaps.some(({ start, end }) => start < time[i]! && end > time[i - 1]!);
  const large: SetPointJump[] = [];
  for (let i = 1; i < time.length; i++) {
    // Without the turns taken off a change is no smaller: nearly all need no second look.
    if (Math.abs(values[i]! - values[i - 1]!) <= JUMP.size) continue;
    const size = changeAt(i);
    const least = Math.max(JUMP.size, JUMP.rate * (time[i]! - time[i - 1]!));
    if (Math.abs(size) > least && !isAcrossGap(i)) large.push({ at: time[i]!, size });
  }
  if (large.length === 0) return [];
  let [elsewhere, next] = [0, 0];
  for (let i = 1; i < time.length; i++) {
    while (next < large.length && large[next]!.at < time[i]! - AFTERMATH) next++;
    const isNear = next < large.length && large[next]!.at <= time[i]! + AFTERMATH;
    if (!isNear && !isAcrossGap(i)) elsewhere = Math.max(elsewhere, Math.abs(changeAt(i)));
  }
  return large.filter(({ size }) => Math.abs(size) > OUTSTANDING * elsewhere);
}

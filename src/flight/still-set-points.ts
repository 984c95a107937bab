import type { Channel } from "../log/channel.ts";
import type { Log } from "../log/log.ts";
import { endsOf } from "../signal/index.ts";

/** Share of the motion's range below which a set point stands still: loops in use move theirs by a hundredth and more. */
const STILL = 1e-3;

/**
 * Whether a set point stood still for the whole flight while what it is the set point of moved. It does not tell then
 * whether that was the order or a column that nobody writes.
 */
export function standsStill(setpoint: Channel, measured: Channel): boolean {
  return rangeOf(setpoint) < STILL * rangeOf(measured);
}

/**
 * Set points that no loop in use can have made: rates of roll and pitch that stand still. Whoever keeps a multirotor in
 * the air, a pilot or an attitude loop, moves these all the time (common practice). An attitude or a turning about yaw
 * may well be held for a whole flight, by a stick at rest or a heading to keep, so theirs remain.
 */
export function stillSetPoints({ channels }: Pick<Log, "channels">): Channel[] {
  return ["rate.roll", "rate.pitch"].flatMap((loop) => {
    const [setpoint, measured] = [channels.get(`${loop}.setpoint`), channels.get(`${loop}.measured`)];
    return setpoint !== undefined && measured !== undefined && standsStill(setpoint, measured) ? [setpoint] : [];
  });
}

/** From the least to the largest value, in the channel's unit. */
export function rangeOf({ series: { values } }: Channel): number {
  const { least, most } = endsOf(values);
  return most - least;
}

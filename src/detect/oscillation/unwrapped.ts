import type { Channel } from "../../log/index.ts";
import { unwrapPhase } from "../../signal/index.ts";

/** A channel as it is; a heading without its jumps by a whole turn, which a filter would take for motion. */
export function unwrapped(channel: Channel): Channel {
  if (!channel.name.startsWith("attitude.yaw.")) return channel;
  const { time, values } = channel.series;
  return { ...channel, series: { time, values: unwrapPhase(Float64Array.from(values)) } };
}

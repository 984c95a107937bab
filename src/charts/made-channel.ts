import type { Channel } from "../log/channel.ts";

/** What a computed quantity stands on: its times, and the index ranges in which it holds without a pause. */
export interface MadeOn {
  readonly time: Float64Array;
  readonly stretches: readonly { readonly from: number; readonly to: number }[];
}

/** A computed quantity in the shape of a logged one, so that it can be drawn like one. */
export function madeChannel(name: string, unit: string, { time, stretches }: MadeOn, values: Float64Array): Channel {
  const gaps = stretches.slice(1).map(({ from }, i) => ({ start: time[stretches[i]!.to - 1]!, end: time[from]! }));
  const span = time.length > 1 ? time[time.length - 1]! - time[0]! : 1;
  const rate = (time.length - 1) / span;
  return {
    name,
    column: name,
    unit,
    series: { time, values },
    rate,
    coverage: 1,
    longestGap: 1 / rate,
    gaps,
    stuck: [],
  };
}

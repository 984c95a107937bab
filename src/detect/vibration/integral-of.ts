import type { Series } from "../../log/channel.ts";
import { firstAtOrAfter } from "../../log/clock/first-at-or-after.ts";

/** The integral of a series from the first of some times to each of them, by trapezoids; values on straight lines. */
export function integralOf({ time: at, values }: Series, time: Float64Array): Float64Array {
  let i = Math.max(0, firstAtOrAfter(at, time[0]!) - 1);
  const valueAt = (t: number) => {
    while (i < at.length - 2 && at[i + 1]! <= t) i++;
    const share = Math.min(1, Math.max(0, (t - at[i]!) / (at[i + 1]! - at[i]!)));
    return values[i]! + share * (values[i + 1]! - values[i]!);
  };
  const integral = new Float64Array(time.length);
  let last = valueAt(time[0]!);
  for (let k = 1; k < time.length; k++) {
    const next = valueAt(time[k]!);
    integral[k] = integral[k - 1]! + ((last + next) * (time[k]! - time[k - 1]!)) / 2;
    last = next;
  }
  return integral;
}

import type { Series, Span } from "../channel.ts";
import { firstAtOrAfter } from "./first-at-or-after.ts";
import { stillRuns } from "./still-runs.ts";

/** Share of their usual movement that the other channels must show while one is still. */
const OTHERS_MOVE = 0.3;

/**
 * Where a measured motion (rate, angle, acceleration, rotor speed) is stuck: it keeps one value for longer than its own
 * activity explains while the rest of the aircraft moves on. Standing still on the ground, or a whole log frozen, is
 * not that; nor are zeros from the first sample on, before the sensor has begun to speak.
 *
 * @param others the other measured motion of the log; where there is none, every still run counts that is not at zero
 */
export function stuckSpans(series: Series, gaps: readonly Span[], others: readonly Series[]): Span[] {
  return stillRuns(series, gaps)
    .filter((run) => {
      const isWhole = run.samples === series.time.length;
      if (run.isFirst && run.value === 0 && !isWhole) return false;
      if (others.length === 0) return run.value !== 0;
      return others.some((other) => movement(other, run) > OTHERS_MOVE * movement(other, null));
    })
    .map(({ start, end }) => ({ start, end }));
}

/** Mean absolute change per second, over a span or over all; 0 where there are no two samples. */
function movement({ time, values }: Series, span: Span | null): number {
  const from = span === null ? 0 : firstAtOrAfter(time, span.start);
  let sum = 0;
  let at = from + 1;
  for (; at < time.length && (span === null || time[at]! <= span.end); at++) {
    sum += Math.abs(values[at]! - values[at - 1]!);
  }
  const elapsed = at - 1 > from ? time[at - 1]! - time[from]! : 0;
  return elapsed > 0 ? sum / elapsed : 0;
}

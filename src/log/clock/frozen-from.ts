import type { Series } from "../channel.ts";

/** One measured quantity of the aircraft's motion. */
export interface Motion {
  readonly series: Series;
  /** a body rate: zero at rest, whatever the attitude */
  readonly isRate: boolean;
}

/** s; a log that stops changing for less before its end may simply have been at rest for a moment */
const SHORTEST_FREEZE = 0.5;
/** Times the usual wait between changes before the freeze. */
const TIMES_USUAL = 10;

/**
 * When a log froze: the motion of the aircraft stops changing, in all its channels at once, and rows go on to the end
 * with the last values. Null where it does not.
 *
 * Only measured motion is looked at: set points and commands rest by themselves, and what another system writes
 * into the same rows (a height from a camera, a clock) may well go on. "At once" means that the first channel to stop
 * does so no more than a fifth of the frozen time before the last: on the ground each comes to rest in its own time.
 * Rates that end at exactly zero are taken for rest.
 *
 * @param motion the measured rates, angles and accelerations of the log
 */
export function frozenFrom(motion: readonly Motion[]): number | null {
  const ends = motion
    .filter(({ series }) => series.time.length > 1)
    .map(lastChange)
    .filter((end) => end !== null);
  if (ends.length === 0) return null;
  const from = Math.max(...ends.map(({ changed }) => changed));
  const frozen = Math.max(...ends.map(({ last }) => last)) - from;
  if (frozen < SHORTEST_FREEZE || frozen < TIMES_USUAL * Math.min(...ends.map(usualWait))) return null;
  const isAtOnce = ends.every(({ changed, last }) => from - changed <= frozen / 5 && last > from);
  const rates = ends.filter(({ isRate }) => isRate);
  const isAtRest = rates.length > 0 && rates.every(({ value }) => value === 0);
  return isAtOnce && !isAtRest ? from : null;
}

/** When a channel last changed and what became of it; null if it never changed. */
function lastChange({ series, isRate }: Motion) {
  const { time, values } = series;
  let at = values.length - 1;
  while (at > 0 && values[at] === values[at - 1]) at--;
  if (at === 0) return null;
  return { series, at, changed: time[at]!, last: time[time.length - 1]!, value: values[at]!, isRate };
}

/** s between changes up to sample `at`, of which there is one at least. */
function usualWait({ series: { time, values }, at }: { series: Series; at: number }): number {
  let changes = 0;
  for (let i = 1; i <= at; i++) if (values[i] !== values[i - 1]) changes++;
  return (time[at]! - time[0]!) / changes;
}

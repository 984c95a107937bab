import { FALSE_ALARMS } from "../../flight/flight.ts";

/**
 * The regularity (see `regularityOf`) below which motion is no oscillation, at the default setting, and by how much it
 * rises for a factor of e fewer false alarms.
 */
const REGULAR = { least: 0.3, fold: 0.08 };

/**
 * Times the flight's calm from which on motion is looked at, by false oscillations an hour. Up to the default it is the
 * contract's three, at which healthy flight makes fewer than are accepted: hardly anything in it keeps up three times
 * the calm for five cycles but answers to a stick, which are told by themselves (`isStepAnswer`). Who accepts more sees
 * smaller motion. From 4.9 hours of simulated healthy flight (legs, stick steps, gusts up to 20 kt; seeds 20001 to
 * 20100); what was commanded is not counted. Confirmed on other seeds: see test/studies.
 */
const CALM_RATIOS: readonly (readonly [falseAlarms: number, ratio: number])[] = [
  [FALSE_ALARMS, 3],
  [2, 1.95],
  [5, 1.65],
];
/** Where the envelope of noise is most of the time: nothing stands out by less. */
const LEAST_RATIO = 1.2;

/**
 * The regularity (see `regularityOf`) that an oscillation has to have where so many false ones an hour are accepted.
 * @throws RangeError unless above 0
 */
export function leastRegularity(falseAlarms: number): number {
  requireRate(falseAlarms);
  return REGULAR.least + REGULAR.fold * Math.log(FALSE_ALARMS / Math.min(FALSE_ALARMS, falseAlarms));
}

/**
 * Times the calm in-band rms from which on motion stands out where so many false ones an hour are accepted: the
 * contract's first, so that what is seen with few is seen with many, then a lesser one where more are accepted than by
 * default, on straight lines over the logarithm between `CALM_RATIOS` and beyond the last.
 * @throws RangeError unless above 0
 */
export function calmRatiosFor(falseAlarms: number): number[] {
  requireRate(falseAlarms);
  const contract = CALM_RATIOS[0]![1];
  if (falseAlarms <= FALSE_ALARMS) return [contract];
  const next = CALM_RATIOS.findIndex(([rate]) => falseAlarms <= rate);
  const upper = next === -1 ? CALM_RATIOS.length - 1 : next;
  const [[a, from], [b, to]] = [CALM_RATIOS[upper - 1]!, CALM_RATIOS[upper]!];
  return [contract, Math.max(LEAST_RATIO, from + ((to - from) * Math.log(falseAlarms / a)) / Math.log(b / a))];
}

function requireRate(falseAlarms: number): void {
  if (!(falseAlarms > 0)) throw new RangeError(`falseAlarms has to be above 0, not ${falseAlarms}`);
}

/** Periodicity less what a few cycles can show by chance: the spread goes with the number of cycles. */
export function regularityOf({ periodicity, cyclesLookedAt }: { periodicity: number; cyclesLookedAt: number }): number {
  return periodicity - CHANCE / cyclesLookedAt;
}

const CHANCE = 2;

/**
 * Regularity that a ringing after a knock has and the motion after a stick's steps has not: 0.55 to 0.65 in simulated
 * swinging loads, 0.31 to 0.35 in doublets (seeds 2001 to 2160).
 */
export const CLEAR_REGULARITY = 0.42;

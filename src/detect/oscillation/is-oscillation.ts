import { CLEAR_REGULARITY, leastRegularity, regularityOf } from "./false-alarms.ts";
import { LOWEST } from "./find-candidates.ts";
import { type ModeMeasures, SLOW } from "./mode-measures.ts";

/** Fewest cycles of an oscillation off the floor, and of one that grows (the contract). */
const CYCLES = 5;
const CYCLES_GROWING = 3;
/** Fewest of them above the visible level in a slow swing, which takes seconds: one that dies away is soon below it. */
const CYCLES_VISIBLE = 3.8;
/** The same of one that rings down ever so regularly: it is above the level for less, but well off the floor for longer. */
const RINGING = { visible: 3.3, offFloor: 6 };
/** s; what is over sooner is a knock, however fast it rings */
const SHORTEST = 0.5;
/** Fewest cycles of some size, unless it grows: fewer are a knock that rings. */
const CYCLES_STRONG = { slow: 2.5, fast: 3 };
const SHARE_STRONG = 0.2;
/** However long it lasts: a loop with a twentieth of critical damping, shaken by noise, comes to that (see `periodicity`). */
const LEAST_PERIODICITY = 0.55;

/**
 * Whether a measured mode lasts, and repeats itself as a wave does and noise through a damped loop does not.
 * @param falseAlarms an hour of flight that are accepted
 */
export function isOscillation(mode: ModeMeasures, falseAlarms: number): boolean {
  return lasts(mode) && mode.periodicity >= LEAST_PERIODICITY && regularityOf(mode) >= leastRegularity(falseAlarms);
}

/** Whether a mode goes on for as long, and is of some size for as long, as an oscillation has to. */
function lasts(mode: ModeMeasures): boolean {
  const { start, end, frequency, cycles, cyclesOffFloor, strongCycles, trend } = mode;
  if (end - start < SHORTEST || frequency.value < LOWEST) return false;
  const isSlow = end - start >= SLOW;
  const isRinging = cyclesOffFloor >= RINGING.offFloor && regularityOf(mode) >= CLEAR_REGULARITY;
  if (trend.trend === "growing") return cycles >= CYCLES_GROWING;
  return (
    cycles >= (isSlow ? (isRinging ? RINGING.visible : CYCLES_VISIBLE) : CYCLES) &&
    cyclesOffFloor >= CYCLES &&
    strongCycles >= Math.max(isSlow ? CYCLES_STRONG.slow : CYCLES_STRONG.fast, SHARE_STRONG * cycles)
  );
}

/**
 * Estimated probability that a detected oscillation is one: from its regularity, its length, and other channels that
 * show it.
 */
export function oscillationConfidence(mode: ModeMeasures, witnesses: number): number {
  const odds = 0.4 + 4 * (regularityOf(mode) - LIKELY) + 0.8 * Math.log(mode.cycles / 4) + 1.2 * witnesses;
  return Math.min(0.99, 1 / (1 + Math.exp(-odds)));
}

/** Regularity at which a real oscillation and chance are about alike. */
const LIKELY = 0.3;

import type { View } from "./command-view.ts";
import { along, square } from "./projection.ts";
import { AFTER, statistics, WINDOWS } from "./windows.ts";

/** A smaller loss is found as an imbalance, without a moment at which it began. */
const LEAST_DEFICIT = 0.1;
/** Share of the change of all commands that one motor's loss has to explain: manoeuvres change several motors. */
const LEAST_EXPLAINED = 0.8;
/** Without yaw a centre of gravity that shifts explains two thirds of it, so more is asked for. */
const MORE_EXPLAINED = 0.9;
/** By how much less of it the next motor's loss has to explain. */
const LEAST_APART = 0.05;
/** Scatter of what turns the nose, over what the loss would change in it: below this yaw speaks for a loss, above that not against one. */
const KNOWN_BELOW = 0.5;
const HIDDEN_FROM = 0.75;
/** Part of the yaw that the loss would change, from which on yaw speaks for it. */
const LEAST_YAW = 0.5;
/** The step has to stand out of what the commands do anyway by so many standard errors. */
const LEAST_STANDING_OUT = 5;
/** s over which thrusts that go together from cell to cell count as one observation */
const MEMORY = 0.4;

/** A step of the commands that one motor's loss of thrust explains. */
export interface Step {
  readonly motor: number;
  /** share of its thrust that was lost, with a 95 % interval */
  readonly deficit: number;
  readonly low: number;
  readonly high: number;
  /** share of the change of all commands that the loss explains, 0..1 */
  readonly explained: number;
  /** whether yaw speaks for this motor too; false where what turns the nose changed meanwhile, which hides its part */
  readonly isYawKnown: boolean;
  /** how many standard errors the step is large */
  readonly standingOut: number;
  /** what the motor is asked for after the step, and the standard error of the step, in the unit of the thrusts */
  readonly asked: number;
  readonly error: number;
}

/** The step of the commands around a cell, if one motor's loss of thrust explains it; else null. */
export function stepAt({ thrusts, asked: wanted, patterns, yaw, isWithoutYaw }: View, cell: number): Step | null {
  const { before, after, gap } = WINDOWS;
  const old = thrusts.map((thrust) => statistics(thrust, cell - before, cell));
  const fresh = thrusts.map((thrust) => statistics(thrust, cell + gap, cell + gap + after));
  const step = fresh.map(({ mean }, i) => mean - old[i]!.mean);
  const whole = step.reduce((sum, value) => sum + value * value, 0);
  const [best, second] = patterns
    .map((pattern, motor) => {
      const part = along(pattern, step);
      return { motor, size: part / square(pattern), explained: part > 0 ? (part * part) / square(pattern) / whole : 0 };
    })
    .sort((a, b) => b.explained - a.explained);
  if (best === undefined || !(best.explained >= LEAST_EXPLAINED)) return null;
  const { motor, size, explained } = best;
  // A load lifted at the motor changes lift, roll and pitch as its loss does, but not yaw.
  const [yawBefore, yawAfter] = [
    statistics(yaw.moments, cell - before, cell),
    statistics(yaw.moments, cell + gap, cell + gap + after),
  ];
  const yawOfLoss = size * yaw.levers[motor]!;
  const restless = Math.sqrt(Math.max(yawBefore.variance, yawAfter.variance)) / Math.abs(yawOfLoss);
  const isForLoss = (yawAfter.mean - yawBefore.mean) / yawOfLoss >= LEAST_YAW;
  if (!isForLoss && restless < HIDDEN_FROM) return null;
  const isYawKnown = isForLoss && restless < KNOWN_BELOW;
  if (isWithoutYaw) {
    // The two rotors of a coaxial pair differ by yaw alone.
    if (explained < MORE_EXPLAINED || explained - (second?.explained ?? 0) < LEAST_APART) return null;
  }
  // What is lost now is a share of what the motor is now asked for.
  const asked = statistics(wanted[motor]!, cell + gap, cell + gap + after).mean;
  const deficit = size / asked;
  const perWindow = AFTER / MEMORY;
  const change = Math.sqrt((old[motor]!.variance + fresh[motor]!.variance) / perWindow);
  const error = change / patterns[motor]![motor]!;
  const standingOut = size / Math.max(error, 1e-6 * asked);
  if (deficit < LEAST_DEFICIT || standingOut < LEAST_STANDING_OUT) return null;
  return {
    motor: motor + 1,
    deficit: Math.min(1, deficit),
    low: Math.max(0, (size - 1.96 * error) / asked),
    high: Math.min(1, (size + 1.96 * error) / asked),
    explained,
    isYawKnown,
    standingOut,
    asked,
    error,
  };
}

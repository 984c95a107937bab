import type { Flight } from "../../flight/index.ts";
import { motorThrusts } from "../motor-thrusts.ts";
import { wholeView, withoutYaw } from "./command-view.ts";
import { knockAt } from "./knock.ts";
import { type Candidate, stepsIn } from "./steps-in.ts";
import { WINDOWS } from "./windows.ts";

/** A motor that from one moment on gives less thrust than its command asks. */
export interface ThrustLoss {
  readonly motor: number;
  /** s */
  readonly at: number;
  /** share of its thrust that was lost, with a 95 % interval */
  readonly deficit: number;
  readonly low: number;
  readonly high: number;
  /** that it is a loss and no lifted load, 0..1 */
  readonly confidence: number;
  /** whether yaw speaks for this motor too; false where what turns the nose changed meanwhile, which hides its part */
  readonly isYawKnown: boolean;
}

/**
 * Finds sudden losses of thrust by what they leave behind. When motor i loses a share of its thrust, the aircraft is
 * knocked towards it and the loops come to rest again only when the commands give the old lift and moments: the
 * commands have then changed by a multiple of one known pattern, the column of B+ B that belongs to motor i. For four
 * motors that is motor i alone. A manoeuvre has other patterns, and does not stay. Turning the nose changes the commands
 * too, and for long; so where the whole pattern finds nothing, what lift, roll and pitch ask for is looked at alone.
 *
 * The moment is the knock: the largest turning towards the motor in the second before the commands settle. Without the
 * knock, and so without logged rates, nothing is a loss: a load that is lifted off changes the commands alike.
 */
export function findThrustLosses(flight: Flight): ThrustLoss[] {
  const motors = motorThrusts(flight);
  if (motors === null) return [];
  return motors.stretches.flatMap(({ from, to }) => {
    const whole = wholeView(motors, from, to);
    const turnless = withoutYaw(motors, whole);
    const others = turnless === null ? [] : stepsIn(turnless);
    return knockedSteps(stepsIn(whole), others, (step) => knockAt(flight, motors, step)).map(lossOf);
  });
}

/**
 * The steps of the whole pattern that were knocked, at the moment of the knock, and of those seen without yaw the ones
 * that lie apart from them; in order. A step without a knock, such as a turn, hides nothing beside it.
 */
export function knockedSteps(
  whole: readonly Candidate[],
  others: readonly Candidate[],
  knockOf: (step: Candidate) => number | null,
): Candidate[] {
  const { gap, after } = WINDOWS;
  const knocked = (steps: readonly Candidate[]) =>
    steps.flatMap((step) => {
      const at = knockOf(step);
      return at === null ? [] : [{ ...step, at }];
    });
  const found = knocked(whole);
  // With less to tell by, what commands wander by chance is no loss.
  const apart = knocked(others).filter(
    ({ cell, low }) => low > 0 && found.every((one) => Math.abs(one.cell - cell) > gap + after),
  );
  return [...found, ...apart].sort((a, b) => a.cell - b.cell);
}

/**
 * How often such a finding is a loss, a loss of 30 % and a lifted load being equally likely: of simulated flights, half
 * of them in hover, with yaw 33 of 40 losses and 10 of 140 loads were found, without it 7 of 40 and 32 of 140 (the study
 * of losses, seeds 601 to 670; see its README for other seeds).
 */
const WITH_YAW = 0.92;
const WITHOUT_YAW = 0.43;

function lossOf({ motor, deficit, low, high, explained, isYawKnown, at }: Candidate): ThrustLoss {
  const confidence = isYawKnown ? Math.min(WITH_YAW, explained) : WITHOUT_YAW;
  return { motor, at, deficit, low, high, confidence, isYawKnown };
}

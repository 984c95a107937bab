import type { Pattern, ThrustImbalanceEvidence } from "../detect/index.ts";
import type { FindingContext } from "./kind.ts";

/** The check list, nearest cause first; then the test that would tell the alternatives apart. */
export function imbalanceChecks(
  { pattern, besides, motors, alternatives, alternativePairs }: ThrustImbalanceEvidence,
  context: FindingContext,
): string[] {
  const where = motors.length === 0 ? "every motor" : motors.map((motor) => context.motorName(motor)).join(" and ");
  const causes: Pattern[] = besides === undefined ? [pattern] : [pattern, besides];
  const open = new Set<Pattern>([...causes, ...alternatives, ...alternativePairs.flat()]);
  const propeller = `With the battery disconnected, look at the propeller of ${where}: nicks, seating, right way up, right type.`;
  const bearings = `With the battery disconnected, turn ${where} by hand: bearings, mounting screws, the motor's angle on its arm.`;
  const clamps = "Check the arm clamps: an arm that has turned a degree or two tilts its motor.";
  const balance =
    "Find the centre of gravity with battery and payload as flown, and compare the payload's position with the manual.";
  const calibration = "Only when all that is in order, look at the calibration of motor outputs and level.";
  return [...ordered(), ...tellingTests(open)];

  function ordered(): string[] {
    // A nicked propeller would stand out at its own corner; what has twisted and what has moved comes first.
    if (causes.includes("spin-pair") && causes.includes("centre-of-gravity")) {
      const twisted = [bearings, clamps];
      return pattern === "spin-pair"
        ? [...twisted, balance, propeller, calibration]
        : [balance, ...twisted, propeller, calibration];
    }
    // The load is where balance asks for it first where only the balance is in question.
    if (pattern === "centre-of-gravity" && !open.has("single-motor"))
      return [balance, propeller, bearings, clamps, calibration];
    // A second cause that is not at the named motors is looked for at all of them.
    const elsewhere =
      motors.length > 0 && besides === "spin-pair"
        ? [
            "Then sight along every other arm: does its motor stand upright, and are the propellers of both kinds alike?",
          ]
        : [];
    return [propeller, bearings, ...elsewhere, clamps, balance, calibration];
  }
}

function tellingTests(open: ReadonlySet<Pattern>): string[] {
  const tests: string[] = [];
  if (open.size > 1 && (open.has("single-motor") || open.has("several-motors"))) {
    tests.push(
      "To tell a propeller from the rest: with the battery disconnected swap two propellers of the same type and rotation and fly the same hover again. If the excess moves along, it is the propeller.",
    );
  }
  if (open.has("centre-of-gravity")) {
    tests.push(
      "To tell the balance from the motors: with the battery disconnected weigh the aircraft on the ends of its arms, as flown; the scales show where the weight sits.",
    );
  }
  tests.push(
    "To tell wind from the aircraft: hover with the nose turned by a half turn; what stays with the aircraft is its own.",
  );
  return tests;
}

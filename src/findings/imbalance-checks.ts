import type { Pattern, ThrustImbalanceEvidence } from "../detect/index.ts";
import type { FindingContext } from "./kind.ts";

/** The check list, nearest cause first; then the test that would tell the alternatives apart. */
export function imbalanceChecks(
  { pattern, motors, alternatives }: ThrustImbalanceEvidence,
  context: FindingContext,
): string[] {
  const where = motors.length === 0 ? "every motor" : motors.map((motor) => context.motorName(motor)).join(" and ");
  const open = new Set<Pattern>([pattern, ...alternatives]);
  const checks = [
    `With the battery disconnected, look at the propeller of ${where}: nicks, seating, right way up, right type.`,
    `Turn ${where} by hand: bearings, mounting screws, the motor's angle on its arm.`,
    "Check the arm clamps: an arm that has turned a degree or two tilts its motor.",
    "Find the centre of gravity with battery and payload as flown, and compare the payload's position with the manual.",
    "Only when all that is in order, look at the calibration of motor outputs and level.",
  ];
  // The load is where balance asks for it first where only the balance is in question.
  const ordered =
    pattern === "centre-of-gravity" && !open.has("single-motor")
      ? [checks[3]!, ...checks.filter((_, i) => i !== 3)]
      : checks;
  return [...ordered, ...tellingTests(open)];
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

import type { Pattern, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { uncapital } from "../../words/index.ts";
import type { FindingContext } from "../kind.ts";
import { mostLoaded } from "./imbalance-sizes.ts";

const MEANING: Record<Pattern, string> = {
  "single-motor": "One corner needs more command for the same thrust: most often its propeller, then its motor.",
  "several-motors": "More than one motor needs more command for the same thrust.",
  "spin-pair":
    "One spin direction works harder to hold a lasting yaw moment: a motor that stands twisted on its arm, or propellers whose two kinds differ (another pitch, or both of one kind worn).",
  "centre-of-gravity": "The weight does not sit in the middle of the motors, so the near ones carry more of it.",
  "motor-group":
    "Motors that sit together work harder together: what they share (arm, supply, wash of the payload) is suspect.",
};

/** Where no fault by itself is as probable as an aircraft in order, it is no more than a hint. */
export function hintWords({ isUsual, isAgainstBaseline }: ThrustImbalanceEvidence): string[] {
  if (!isUsual) return [];
  const order = isAgainstBaseline ? "An aircraft in order, flown twice," : "An aircraft in order";
  return [`${order} explains this as well as any single fault does, so this is a hint and no more.`];
}

/** What the pattern says of the aircraft, and of two causes which hides which. */
export function imbalanceMeaning(evidence: ThrustImbalanceEvidence, context: FindingContext): string {
  const { pattern, besides, motors } = evidence;
  if (besides === undefined) return MEANING[pattern];
  const hidden =
    pattern === "single-motor" && besides === "spin-pair" && mostLoaded(evidence).motor !== motors[0]
      ? ` It also takes load off ${context.motorName(motors[0]!)}, which is why another motor is asked for most.`
      : "";
  return `No single cause explains the load; one change to the aircraft may have brought both. ${MEANING[pattern]} Besides that: ${uncapital(MEANING[besides])}${hidden}`;
}

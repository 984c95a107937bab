import type { Estimate, MotorEstimate, Pattern, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { capital, measureWords, numberWords, percentWords } from "../../words/index.ts";
import type { FindingContext } from "../kind.ts";
import { millimetres, mostLoaded, sized, spinSides } from "./imbalance-sizes.ts";

/** Which causes explain how the load is shared, each with its size, or what the motor that is named is asked for. */
export function imbalanceSummary(evidence: ThrustImbalanceEvidence, context: FindingContext): string {
  const { besides, motors, perMotor } = evidence;
  if (besides !== undefined) {
    const most = mostLoaded(evidence);
    const causes = causesWords(evidence, besides, context);
    return `Two causes together explain how the load is shared in steady ${whereOf(evidence)}: ${causes.join("; and ")}. ${loadOf(most, evidence, context)}.`;
  }
  const named = motors.length > 0 ? perMotor.excess![motors[0]! - 1]! : mostLoaded(evidence);
  return `${loadOf(named, evidence, context)}, in steady ${whereOf(evidence)}${detailOf(evidence, context)}.`;
}

function loadOf(one: MotorEstimate, { isAgainstBaseline }: ThrustImbalanceEvidence, context: FindingContext): string {
  const compared = isAgainstBaseline ? "than in the baseline flight" : "than the mean of all motors";
  return `${capital(context.motorName(one.motor))} is asked for ${shareWords(one)} ${one.value < 0 ? "less" : "more"} thrust ${compared}`;
}

function causesWords(evidence: ThrustImbalanceEvidence, besides: Pattern, context: FindingContext): string[] {
  const of = evidence.motors.map((motor) => context.motorName(motor)).join(" and ");
  const lost = lostWords(evidence);
  return [evidence.pattern, besides].map((cause) => {
    if (cause === "single-motor") return `${of} pulls less than it should${lost}`;
    return cause === "motor-group" ? `${of} together pull less than they should` : causeWords(evidence, cause);
  });
}

function detailOf(evidence: ThrustImbalanceEvidence, context: FindingContext): string {
  const { pattern, motors } = evidence;
  switch (pattern) {
    case "single-motor":
      return lostWords(evidence);
    case "several-motors":
    case "motor-group":
      return `; ${motors.map((motor) => context.motorName(motor)).join(" and ")} together explain the pattern`;
    default:
      return `; ${causeWords(evidence, pattern)}`;
  }
}

/** `, as if it had lost 12 % of its thrust`; empty where no loss was found. */
function lostWords({ measures: { loss } }: ThrustImbalanceEvidence): string {
  return loss === undefined || loss.value <= 0 ? "" : `, as if it had lost ${lossWords(loss)} of its thrust`;
}

/** A loss that may be none is told by how large it can be. */
const lossWords = (loss: Estimate) =>
  loss.low! > 0 ? measureWords("loss", loss) : `${percentWords(loss.high!)} at most`;

/** A cause that names no motor, with its size. */
const causeWords = (evidence: ThrustImbalanceEvidence, cause: Pattern) =>
  cause === "spin-pair" ? spinWords(evidence) : `the centre of gravity lies ${placeWords(evidence)}`;

const shareWords = (excess: MotorEstimate) => measureWords("excess", sized(excess));

function whereOf({ condition }: ThrustImbalanceEvidence): string {
  if (condition.kind === "flight") return "flight";
  return condition.kind === "hover" ? "hover" : `flight at ${numberWords(condition.speed!, 2)} m/s`;
}

/** A spin pair with its size: of two causes only its own part of the spin bias. */
function spinWords({ besides, measures, isAgainstBaseline }: ThrustImbalanceEvidence): string {
  if (besides !== undefined) {
    const twist = measures.twist ?? measures["spin-bias"]!;
    const [more, less] = spinSides(twist);
    const before = isAgainstBaseline ? " than before" : "";
    return `a lasting yaw moment puts ${measureWords("twist", sized(twist))} more on the ${more} propellers${before} and as much less on the ${less} ones`;
  }
  const bias = measures["spin-bias"]!;
  const [more, less] = spinSides(bias);
  const usual = isAgainstBaseline ? "they did" : "the mean";
  return `the ${more} propellers carry ${percentWords(Math.abs(bias.value))} more than ${usual}, the ${less} ones as much less`;
}

function placeWords({ measures, isAgainstBaseline }: ThrustImbalanceEvidence): string {
  const [forward, right] = [measures["cg-forward"]!.value, measures["cg-right"]!.value];
  const along = `${millimetres(forward)} ${forward >= 0 ? "forward" : "aft"}`;
  const across = `${millimetres(right)} to the ${right >= 0 ? "right" : "left"}`;
  return `${along} and ${across} of ${isAgainstBaseline ? "where it was" : "the reference point of the aircraft file"}`;
}

import type { MotorEstimate, Pattern, ThrustImbalanceEvidence } from "../../detect/index.ts";
import { capital, measureWords, numberWords, percentWords } from "../../words/index.ts";
import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingContext, FindingKind } from "../kind.ts";

export const thrustImbalanceKind: FindingKind<ThrustImbalanceEvidence> = {
  kind: "thrust-imbalance",
  guide: {
    title: "Load shared unevenly among the motors",
    meaning:
      "In hover all motors should work about equally hard. When they do not, the pattern tells what to look for: one motor that needs more command (a damaged or wrong propeller, a tired motor), one spin direction that works harder (a motor that stands twisted on its arm, propellers of unequal pitch), or a whole side (the centre of gravity).",
    method:
      "Commands in steady flight become thrust demands, (command fraction) to the power of the thrust curve's exponent, or the square of rotor speed where logged. Their means over blocks of a second or more give shares of the total with an interval; slow drifting is led back to zero speed. The shares' centre is the centre of gravity, what one spin direction carries more is a yaw moment that something makes. A weak motor, several, a spin pair, a centre of gravity and a group are weighed by their marginal likelihood beside what aircraft in order show. With a baseline flight the change of the shares is weighed instead.",
    limits:
      "Four motors give three numbers, so without a baseline some patterns look alike; the finding lists those that it cannot tell apart. Wind and drag shift the load as the centre of gravity does; hover in calm air shows it cleanest. Millimetres rest on the motor places of the aircraft file and degrees on its torque ratio.",
    sources: [
      "Statics of hover: moments about the centre of gravity add up to nothing",
      "MacKay 2003, chapter 28 (marginal likelihood); Kass and Raftery 1995 (scale of Bayes factors)",
      "Thresholds: common practice",
    ],
    cautions: [CAUTIONS.mechanicalFirst, CAUTIONS.propellers],
  },
  level(evidence, context) {
    const { advisory, caution, warning } = ALERT_TABLE["thrust-imbalance"];
    const sure = evidence.perMotor.excess!.filter(({ low, high }) => low! * high! > 0);
    const largest = Math.max(0, ...sure.map(({ value }) => Math.abs(value)));
    const enough = evidence.isAgainstBaseline ? caution.excessAgainstBaseline : caution.excess;
    const isTold = largest >= advisory.excess;
    return highestLevel({
      advisory: isTold,
      caution: largest >= enough,
      warning: largest >= warning.excess || (isTold && evidence.motors.some((motor) => isAtLimit(motor, context))),
    });
  },
  words(evidence, context, level) {
    return {
      summary: summaryOf(evidence, context),
      meaning: [MEANING[evidence.pattern], ...asides(evidence)].join(" "),
      cautions: level === "note" ? [CAUTIONS.mechanicalFirst] : [CAUTIONS.mechanicalFirst, CAUTIONS.flyingAfterFinding],
      next: nextOf(evidence, context),
    };
  },
  top({ pattern, motors, motor, alternatives }) {
    return {
      pattern,
      ...(motor === undefined && motors.length > 0 && { motors: [...motors] }),
      ...(alternatives.length > 0 && { alternatives: [...alternatives] }),
    };
  },
};

const isAtLimit = (motor: number, { evidence }: FindingContext) =>
  evidence.some((other) => other.kind === "motor-saturation" && other.motor === motor);

/** Each pattern in a few words, for lists of what may be behind it. */
const PATTERN_WORDS: Record<Pattern, string> = {
  "single-motor": "one weak motor or damaged propeller",
  "several-motors": "several weak motors or damaged propellers",
  "spin-pair": "a twisted motor or unequal propellers of the two spin directions",
  "centre-of-gravity": "a centre of gravity off the middle",
  "motor-group": "motors of one side, end or arm together",
};

const MEANING: Record<Pattern, string> = {
  "single-motor": "One corner needs more command for the same thrust: most often its propeller, then its motor.",
  "several-motors": "More than one motor needs more command for the same thrust.",
  "spin-pair":
    "One spin direction works harder to hold a lasting yaw moment: a motor that stands twisted on its arm, or propellers whose two kinds differ.",
  "centre-of-gravity": "The weight does not sit in the middle of the motors, so the near ones carry more of it.",
  "motor-group":
    "Motors that sit together work harder together: what they share (arm, supply, wash of the payload) is suspect.",
};

function summaryOf(evidence: ThrustImbalanceEvidence, context: FindingContext): string {
  const { excess } = evidence.perMotor;
  const compared = evidence.isAgainstBaseline ? "than in the baseline flight" : "than the mean of all motors";
  const most = [...excess!].sort((a, b) => b.value - a.value)[0]!;
  const named = evidence.motors.length > 0 ? excess![evidence.motors[0]! - 1]! : most;
  const load = `${capital(context.motorName(named.motor))} gives ${shareWords(named)} ${named.value < 0 ? "less" : "more"} ${compared}`;
  return `${load} in steady ${whereOf(evidence)}${detailOf(evidence, context)}.`;
}

function detailOf({ pattern, motors, measures }: ThrustImbalanceEvidence, context: FindingContext): string {
  const loss = measures.loss;
  switch (pattern) {
    case "single-motor":
      return loss === undefined ? "" : `, as if it had lost ${measureWords("loss", loss)} of its thrust`;
    case "several-motors":
    case "motor-group":
      return `; ${motors.map((motor) => context.motorName(motor)).join(" and ")} together explain the pattern`;
    case "spin-pair":
      return `; ${spinWords(measures["spin-bias"]!.value)}`;
    case "centre-of-gravity":
      return `; the load's centre lies ${placeWords(measures["cg-forward"]!.value, measures["cg-right"]!.value)}`;
  }
}

const shareWords = ({ value, low, high }: MotorEstimate) =>
  measureWords("excess", {
    value: Math.abs(value),
    unit: "1",
    ...(low! * high! > 0 && {
      low: Math.min(Math.abs(low!), Math.abs(high!)),
      high: Math.max(Math.abs(low!), Math.abs(high!)),
    }),
  });

function whereOf({ condition }: ThrustImbalanceEvidence): string {
  if (condition.kind === "flight") return "flight";
  return condition.kind === "hover" ? "hover" : `flight at ${numberWords(condition.speed!, 2)} m/s`;
}

function spinWords(bias: number): string {
  const [more, less] = bias > 0 ? ["counter-clockwise", "clockwise"] : ["clockwise", "counter-clockwise"];
  return `the ${more} propellers carry ${percentWords(Math.abs(bias))} more than the mean, the ${less} ones as much less`;
}

function placeWords(forward: number, right: number): string {
  const along = `${numberWords(Math.abs(1000 * forward), 2)} mm ${forward >= 0 ? "forward" : "aft"}`;
  const across = `${numberWords(Math.abs(1000 * right), 2)} mm ${right >= 0 ? "right" : "left"}`;
  return `${along} and ${across} of where it should be`;
}

/** What else the trims told: a spin bias beside another pattern, wind, and what grows with speed. */
function asides({ pattern, measures, alternatives }: ThrustImbalanceEvidence): string[] {
  const bias = measures["spin-bias"]!;
  const tilt = measures.tilt;
  const isSure = (name: string) => measures[name] !== undefined && measures[name].low! * measures[name].high! > 0;
  return [
    pattern !== "spin-pair" && isSure("spin-bias") && Math.abs(bias.value) >= 0.02
      ? `Besides, ${spinWords(bias.value)}.`
      : "",
    tilt !== undefined && isSure("tilt") && Math.abs(bias.value) >= 0.02
      ? `One motor tilted by ${measureWords("tilt", { ...tilt, value: Math.abs(tilt.value), low: Math.min(Math.abs(tilt.low!), Math.abs(tilt.high!)), high: Math.max(Math.abs(tilt.low!), Math.abs(tilt.high!)) })} along the circle would make as much yaw moment.`
      : "",
    isSure("speed-shift-forward")
      ? `From hover to the fastest step the load moves ${forwardWords(measures["speed-shift-forward"]!.value)}: that part comes from the air (drag, a boom, a wing), not from the balance.`
      : "",
    isSure("wind-shift-forward")
      ? `Legs out and back differ by ${numberWords(2000 * Math.abs(measures["wind-shift-forward"]!.value), 2)} mm of it: that part is wind.`
      : "",
    alternatives.length > 0
      ? `This flight alone does not tell it from ${alternatives.map((other) => PATTERN_WORDS[other]).join(", or ")}.`
      : "",
  ].filter((text) => text !== "");
}

const forwardWords = (metres: number) =>
  `${numberWords(Math.abs(1000 * metres), 2)} mm ${metres >= 0 ? "forward" : "aft"}`;

/** The check list, nearest cause first; then the test that would tell the alternatives apart. */
function nextOf({ pattern, motors, alternatives }: ThrustImbalanceEvidence, context: FindingContext): string[] {
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

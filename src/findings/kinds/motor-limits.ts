import type { MotorLimitEvidence } from "../../detect/index.ts";
import { capital, countWords, lengthWords, numberWords, percentWords, secondsWords } from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { AlertLevel } from "../finding.ts";
import type { FindingContext, FindingKind, FindingWords } from "../kind.ts";

const METHOD =
  "A sample counts as at the limit when the command is within half a quantisation step of it; the step is the smallest change of the command in this log. The share counts such samples over all samples in the air. An episode is a run of them without a gap in the log.";
const LIMITS =
  "It tells what was commanded, not what the motor did. A limit that the flight controller keeps below the range of the aircraft file is not seen. Without an aircraft file the highest command of the log stands in for the ceiling, and the finding says so.";

export const motorSaturationKind: FindingKind<MotorLimitEvidence> = {
  kind: "motor-saturation",
  guide: {
    title: "Motor at its ceiling",
    meaning:
      "The controller asked a motor for all it has. While that lasts it cannot ask for more: the aircraft answers too weakly in the direction in which this motor should push, and integrators may wind up.",
    method: METHOD,
    limits: LIMITS,
    sources: [
      "Aircraft file: command.max",
      "Alert levels: 14 CFR 25.1322 read for the ground; thresholds: common practice",
    ],
    cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.propellers, CAUTIONS.flyingAfterFinding],
  },
  level: levelOf,
  words(evidence, context, level) {
    if (isTouch(evidence, level)) return touchWords(evidence, context, "ceiling");
    return {
      summary: summaryOf(evidence, context, "at its ceiling"),
      meaning:
        "At its ceiling a motor has nothing left to give: a gust or a turn that needs more from it will not be answered.",
      cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.flyingAfterFinding],
      next: [
        `With the battery disconnected, look at the propeller of ${context.motorName(evidence.motor)}: nicks, seating, right way up, right type.`,
        "Turn that motor by hand, the battery still disconnected: bearings, mounting screws, alignment with its arm.",
        "Weigh the aircraft and find its centre of gravity with the payload fitted; compare with the manual's limits.",
        "Compare this motor's mean command with the others; if it stands out, the load on it is not shared.",
        "Plan the next flight lighter or slower, in less wind, until the cause is found.",
      ],
    };
  },
};

export const motorFloorKind: FindingKind<MotorLimitEvidence> = {
  kind: "motor-floor",
  guide: {
    title: "Motor on its floor",
    meaning:
      "The controller asked a motor for as little as it can give. While that lasts it cannot ask for less: control in the direction in which this motor should give way is gone, even when nothing oscillates yet.",
    method: METHOD,
    limits: LIMITS,
    sources: [
      "Aircraft file: command.idle, command.min",
      "A motor resting on its floor in forward flight has no authority left to give that way: common practice",
    ],
    cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.propellers, CAUTIONS.flyingAfterFinding],
  },
  level: levelOf,
  words(evidence, context, level) {
    if (isTouch(evidence, level)) return touchWords(evidence, context, "floor");
    return {
      summary: summaryOf(evidence, context, "on its floor"),
      meaning:
        "On its floor a motor cannot give way any further: the aircraft can no longer be pushed down at that corner, and a motion that needs it will go unopposed.",
      cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.flyingAfterFinding],
      next: [
        "Look at where in the flight it happened: if it grows with speed, drag or a moment of the payload is using up the control.",
        "Find the centre of gravity with the payload fitted; a load far from the centre takes one side's motors down.",
        `With the battery disconnected, check the mounting angle of ${context.motorName(evidence.motor)} and of the motor across from it.`,
        "Fly the next steps slower than the speed at which it began.",
      ],
    };
  },
};

function levelOf(evidence: MotorLimitEvidence, context: FindingContext) {
  const { kind, measures } = evidence;
  const { caution, warning } = ALERT_TABLE[kind];
  const share = measures.share!.value;
  const longest = measures.longest!.value;
  return highestLevel({
    advisory: true,
    caution: share >= caution.share || longest >= caution.longest,
    warning:
      share >= warning.share ||
      longest >= warning.longest ||
      (warning.withOscillation && isWithOscillation(evidence, context)),
  });
}

/** Whether the motor was at its limit while an axis that it serves oscillated without being told to. */
function isWithOscillation({ serves, stretches }: MotorLimitEvidence, { evidence }: FindingContext): boolean {
  return evidence.some(
    (other) =>
      other.kind === "oscillation" &&
      other.driver !== "commanded" &&
      serves.includes(other.axis) &&
      stretches.some(({ start, end }) => start < other.end && end > other.start),
  );
}

/** s, episodes shorter than this are touches: a sample or a few */
const TOUCH = 0.05;

const isTouch = ({ measures }: MotorLimitEvidence, level: AlertLevel) =>
  level === "advisory" && measures.longest!.value < TOUCH;

function touchWords(evidence: MotorLimitEvidence, context: FindingContext, limit: "ceiling" | "floor"): FindingWords {
  const { kind, motor, measures } = evidence;
  const { caution } = ALERT_TABLE[kind];
  const name = context.motorName(motor);
  const episodes = measures.episodes!.value;
  const times = episodes === 1 ? "once," : `${episodes} times, the longest`;
  const longest = longestOf(evidence);
  return {
    summary: `${capital(name)} touched its ${limit} (${limitWords(evidence)}) ${times} at ${secondsWords(longest.start)} for ${lengthWords(longest.end - longest.start)}.${placeWords(evidence, context)}`,
    meaning: `A touch: the command came to the end of its range and left it again. It would matter if it lasted ${secondsWords(caution.longest)} or longer, if touches added up to ${percentWords(caution.share)} of the air time, or if they came with an oscillation of an axis that this motor serves.`,
    cautions: [CAUTIONS.gainsAreNotAuthority],
    next: [
      `Look at the command of ${name} at that time; then watch in the next flights whether it touches its ${limit} more often or for longer.`,
    ],
  };
}

const longestOf = ({ stretches }: MotorLimitEvidence) =>
  stretches.reduce((best, span) => (span.end - span.start > best.end - best.start ? span : best));

/** The command at the limit, and how it is known where no aircraft file tells it. */
const limitWords = ({ limit }: MotorLimitEvidence) =>
  `command ${numberWords(limit.command, 5)}${limit.from === "data" ? ", the furthest command seen in this log; no aircraft file was given" : ""}`;

function placeWords({ where: [most] }: MotorLimitEvidence, context: FindingContext): string {
  return most === undefined || most.phase.kind === "unknown"
    ? ""
    : ` Most of it was in ${context.phaseName(most.phase)}.`;
}

function summaryOf(evidence: MotorLimitEvidence, context: FindingContext, where: string): FindingWords["summary"] {
  const { motor, measures } = evidence;
  const episodes = measures.episodes!.value;
  const longest = longestOf(evidence);
  const total = `${capital(context.motorName(motor))} was ${where} (${limitWords(evidence)}) for ${percentWords(measures.share!.value)} of the air time`;
  const when = episodes === 1 ? "once," : `in ${countWords(episodes, "episode")}, the longest`;
  return `${total}: ${when} at ${secondsWords(longest.start)} for ${lengthWords(longest.end - longest.start)}.${placeWords(evidence, context)}`;
}

import type { AuthorityEvidence } from "../../detect/index.ts";
import { capital, countWords, percentWords, secondsWords, turnWords } from "../../words/index.ts";

import { ALERT_TABLE, highestLevel } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { FindingContext, FindingKind } from "../kind.ts";

export const authorityKind: FindingKind<AuthorityEvidence> = {
  kind: "authority",
  guide: {
    title: "Room left to turn about an axis",
    meaning:
      "How much more the motors could still have turned the aircraft in one direction, moment by moment, as a share of what they can do that way in hover. At zero the controller may ask for more and nothing happens.",
    method:
      "Commands become thrusts by the aircraft file's command range and thrust curve, thrusts become lift and moments by the places and spins of the motors. At each sample (of motor commands logged at about 400 Hz or more, over each block of up to 5 ms: no rotor follows faster) the largest extra moment is found that the motors can give in a direction while lift and the other moments stay as they are and each motor stays between its floor and its ceiling; with four motors there is one way to do it, with more the best way counts (exact, by the faces of the attainable set). It is divided by the same number for balanced hover at the mean thrust of the hover phases.",
    limits:
      "It tells what the commands left, not what the propellers delivered: a weak motor, a low battery or the wash of another rotor take away more. Without hover in the log the middle thrust of the air time stands in for it. A share above one means more than in hover.",
    sources: [
      "Aircraft file: motors, command, thrust",
      "Durham 1993, J. Guidance Control Dyn. 16(4):717-725 (attainable moments)",
      "Thresholds: common practice",
    ],
    cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.flyingAfterFinding],
  },
  level({ measures }) {
    const { advisory, caution, warning } = ALERT_TABLE.authority;
    const longest = measures.longest!.value;
    return highestLevel({
      advisory: measures.least!.value < advisory.least,
      caution: longest >= caution.longest,
      warning: longest >= warning.longest,
    });
  },
  words(evidence, context, level) {
    const { axis, direction, binding, leastMotor } = evidence;
    const way = turnWords(axis, direction)!;
    const motor = context.motorName(binding[0]?.motor ?? leastMotor);
    const leader = leaderOf(evidence, context);
    if (leader !== null) {
      return {
        summary: summaryOf(evidence, context),
        meaning: `The same event as for ${turnWords(leader.axis, leader.direction)}: one motor ${level === "advisory" ? "near" : "at"} its limit takes control from several axes at once.`,
        cautions: [CAUTIONS.gainsAreNotAuthority],
        next: [`Work through the checks of the finding on room to ${turnWords(leader.axis, leader.direction)}.`],
      };
    }
    return {
      summary: summaryOf(evidence, context),
      meaning:
        level === "note"
          ? `There was always room to ${way} harder.`
          : level === "advisory"
            ? `${capital(motor)} stood in the way: with it near its limit, the aircraft had little left to ${way} harder.`
            : `${capital(motor)} stood in the way: with it at its limit, the aircraft could hardly ${way} any harder, however much the controller asked.`,
      cautions: level === "note" ? [] : [CAUTIONS.gainsAreNotAuthority, CAUTIONS.flyingAfterFinding],
      next:
        level === "note"
          ? []
          : [
              `Look at the command of ${motor} at that time: at its ceiling it carries too much, at its floor too little.`,
              "Weigh the aircraft and find its centre of gravity with the payload fitted.",
              "If it shrinks with speed, stay below the speed at which it began; if it came with gusts, fly in less wind.",
              ...(axis === "yaw" ? ["Check that every motor stands upright: a twisted arm uses up yaw control."] : []),
            ],
    };
  },
  top: ({ direction, group, leads }) => ({
    direction,
    ...(group !== undefined && { group }),
    ...(leads !== undefined && { leads }),
  }),
};

/** The finding that tells the whole story of this one's event; null for the one that does, and for what stands alone. */
function leaderOf({ group, leads }: AuthorityEvidence, { evidence }: FindingContext): AuthorityEvidence | null {
  if (group === undefined || leads) return null;
  const isLeader = (one: (typeof evidence)[number]): one is AuthorityEvidence =>
    one.kind === "authority" && one.group === group && one.leads === true;
  return evidence.find(isLeader) ?? null;
}

function summaryOf(evidence: AuthorityEvidence, context: FindingContext): string {
  const { axis, direction, measures, stretches, where, leastAt, leastMotor } = evidence;
  const way = turnWords(axis, direction)!;
  if (leaderOf(evidence, context) !== null) {
    if (stretches.length === 0) {
      return `Room to ${way} went down at the same moment: to ${percentWords(measures.least!.value)} of what hover has, at ${secondsWords(leastAt)}.`;
    }
    return `Room to ${way} ran out in the same stretches: down to ${percentWords(measures.least!.value)} of what hover has, less than a tenth for ${percentWords(measures.share!.value)} of the air time.`;
  }
  const least = `Room to ${way} went down to ${percentWords(measures.least!.value)} of what hover has, at ${secondsWords(leastAt)}, where ${context.motorName(leastMotor)} came nearest to its limit.`;
  const most = where[0];
  const place =
    most === undefined || most.phase.kind === "unknown" || measures.least!.value >= 0.3
      ? ""
      : ` Most of it was in ${context.phaseName(most.phase)}.`;
  const followers = followersOf(evidence, context);
  const ways = followers.map((one) => turnWords(one.axis, one.direction)).join(", ");
  const how = followers.every((one) => one.stretches.length > 0) ? "ran out" : "went down";
  const others = followers.length === 0 ? "" : ` Room to ${ways} ${how} with it.`;
  if (stretches.length === 0) return least + place + others;
  return `${least} Less than a tenth was left for ${percentWords(measures.share!.value)} of the air time, in ${countWords(stretches.length, "stretch", "stretches")}, the longest ${secondsWords(measures.longest!.value)}.${place}${others}`;
}

function followersOf({ group, leads }: AuthorityEvidence, { evidence }: FindingContext): AuthorityEvidence[] {
  if (group === undefined || leads !== true) return [];
  return evidence.filter(
    (one): one is AuthorityEvidence => one.kind === "authority" && one.group === group && one.leads === false,
  );
}

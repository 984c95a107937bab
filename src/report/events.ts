import { findingName } from "../charts/index.ts";
import { ALERT_LEVELS, type Finding } from "../findings/finding.ts";
import { firstSentence, uncapital } from "../words/index.ts";

/** Findings that belong to one event, such as a swing that several axes share, or several motors at their limits. */
export interface FlightEvent {
  /** the worst of them; among equals the one that had it first */
  readonly lead: Finding;
  /** the others, in the order of the findings */
  readonly others: readonly Finding[];
}

/**
 * Findings of one kind and group as one event each, and those of several motors that say the same at the same time; every
 * other finding as one of its own; in order of the findings.
 */
export function eventsOf(findings: readonly Finding[]): FlightEvent[] {
  const events: Finding[][] = [];
  for (const finding of findings) {
    const known = events.find((members) => members.some((other) => isOneEvent(other, finding)));
    if (known === undefined) events.push([finding]);
    else known.push(finding);
  }
  return events.map((members) => {
    const lead = members.reduce((worst, one) => (rank(one) > rank(worst) ? one : worst));
    return { lead, others: members.filter((one) => one !== lead) };
  });
}

function isOneEvent(a: Finding, b: Finding): boolean {
  if (a.group !== undefined) return a.kind === b.kind && a.group === b.group;
  const said = SAME_OF_MOTORS[a.kind];
  if (said === undefined || said !== SAME_OF_MOTORS[b.kind] || isNote(a) || isNote(b)) return false;
  const together = Math.min(a.end, b.end) - Math.max(a.start, b.start);
  return together >= TOGETHER * Math.min(a.end - a.start, b.end - b.start);
}

/** What kinds of finding say of a motor, where several motors can have it from one cause. */
const SAME_OF_MOTORS: Readonly<Record<string, string>> = {
  "motor-floor": "at a limit",
  "motor-saturation": "at a limit",
  "motor-headroom": "little room",
};
/** Share of the shorter one's time. */
const TOGETHER = 0.5;

const isNote = ({ severity }: Finding) => severity === "note";

const rank = ({ severity, leads }: Finding) => ALERT_LEVELS.indexOf(severity) + (leads === true ? 0.5 : 0);

/** `Pitch oscillation, with it roll oscillation and yaw oscillation`. */
export function eventName({ lead, others }: FlightEvent): string {
  const names = others.map((one) => uncapital(findingName(one)));
  if (names.length === 0) return findingName(lead);
  const last = names.pop()!;
  return `${findingName(lead)}, with it ${names.length === 0 ? last : `${names.join(", ")} and ${last}`}`;
}

/** What happened in the lead's own words, as one sentence, and what drove it where that was looked for. */
export function eventGist({ lead: { summary, driver } }: FlightEvent): string {
  const sentence = firstSentence(summary);
  const words = driver === undefined ? undefined : DRIVER_WORDS[driver];
  return words === undefined ? sentence : `${sentence} ${words}`;
}

const DRIVER_WORDS: Readonly<Record<string, string>> = {
  controller: "Most likely the control loop itself drives it.",
  external: "Most likely something outside the control loop drives it.",
  coupled: "Most likely a load that swings with the aircraft drives it.",
  commanded: "It was asked for: the response follows its set point.",
  undetermined: "What drives it, this log does not decide.",
};

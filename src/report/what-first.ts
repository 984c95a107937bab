import { findingName } from "../charts/index.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import { ALERT_LEVELS, type AlertLevel, type Finding } from "../findings/finding.ts";
import { countWords } from "../words/index.ts";
import { eventsOf, type FlightEvent } from "./events.ts";

/** What a reader must do first, and about which events. */
export interface WhatFirst {
  readonly level: AlertLevel;
  /** one sentence in the imperative */
  readonly headline: string;
  /** those whose worst finding is of this level */
  readonly events: readonly FlightEvent[];
}

/** One instruction per level that was reached, most severe first; a sentence of its own where nothing asks for action. */
export function whatFirst({ findings }: Pick<Diagnosis, "findings">): WhatFirst[] {
  const instructions: WhatFirst[] = [];
  const events = eventsOf(findings);
  for (const level of [...ALERT_LEVELS].reverse()) {
    const here = events.filter(({ lead }) => lead.severity === level);
    if (here.length > 0) instructions.push({ level, headline: HEADLINES[level](here.length), events: here });
  }
  if (!asksForNothing({ findings })) return instructions;
  const found = findings.length === 0 ? "Nothing was found" : "Nothing to act on was found";
  return [{ level: "note", headline: `${found} in what was examined.`, events }];
}

/** Whether there are no findings but notes; then a report must say what that does not mean. */
export function asksForNothing({ findings }: Pick<Diagnosis, "findings">): boolean {
  return findings.every(({ severity }) => severity === "note");
}

const HEADLINES: Readonly<Record<AlertLevel, (count: number) => string>> = {
  warning: (count) =>
    count === 1
      ? "Do not fly again until the cause is found and mended."
      : `Do not fly again until the causes of these ${count} events are found and mended.`,
  caution: (count) =>
    count === 1 ? "Look into this before the next flight." : `Look into these ${count} events before the next flight.`,
  advisory: () => "Know this, and watch it.",
  note: () => "For the record; nothing to act on.",
};

/** Findings most severe first; those of one level keep their order in time. */
export function bySeverity(findings: readonly Finding[]): Finding[] {
  const rank = (finding: Finding) => -ALERT_LEVELS.indexOf(finding.severity);
  return [...findings].sort((a, b) => rank(a) - rank(b));
}

/** `authority (needs rate.roll.output)`: what was not examined, in one line each. */
export function notExaminedLines({
  notExamined,
}: Pick<Diagnosis, "notExamined">): { subject: string; needs: string; why: string }[] {
  return notExamined.map(({ kind, needs, why }) => ({
    subject: kind.replaceAll("-", " "),
    needs: needs.length === 0 ? "" : needs.join(", "),
    why: why ?? "",
  }));
}

/** `2 warnings, 1 caution`. */
export function levelCounts(findings: readonly Finding[]): string {
  const plural: Readonly<Record<AlertLevel, string>> = {
    warning: "warnings",
    caution: "cautions",
    advisory: "advisories",
    note: "notes",
  };
  return [...ALERT_LEVELS]
    .reverse()
    .map((level) => ({ level, count: findings.filter(({ severity }) => severity === level).length }))
    .filter(({ count }) => count > 0)
    .map(({ level, count }) => countWords(count, level, plural[level]))
    .join(", ");
}

/** The finding's place in time with its name: what lists show. */
export function findingLabel(finding: Finding, number: number): string {
  return `${number} ${findingName(finding)}`;
}

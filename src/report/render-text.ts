import { findingName } from "../charts/index.ts";
import { CAUTIONS } from "../findings/cautions.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import type { Finding } from "../findings/finding.ts";
import { countWords, durationWords, plainText, spanWords } from "../words/index.ts";

import { eventGist, eventName, eventsOf, type FlightEvent } from "./events.ts";
import { nearestNotes } from "./nearest-notes.ts";
import { aircraftName, fileName } from "./page/section-first.ts";
import { type Ink, ink, wrap } from "./terminal.ts";
import { asksForNothing, bySeverity, levelCounts, notExaminedLines, whatFirst } from "./what-first.ts";

export interface TextOptions {
  /** characters in a line, default 80 */
  readonly width?: number;
  /** lines that the summary may fill, default 22 */
  readonly height?: number;
  /** default false */
  readonly colour?: boolean;
}

const INDENT = "  ";

/**
 * The summary for a terminal: what to do first, then what happened from the most severe on, in as many lines as fit one
 * screen. What does not fit is counted, never dropped in silence.
 */
export function renderText(diagnosis: Diagnosis, options: TextOptions = {}): string {
  const { width = 80, height = 22, colour = false } = options;
  const pen = ink(colour);
  const { findings, log } = diagnosis;
  const head = wrap(
    `${aircraftName(diagnosis)}, ${plainText(fileName(log.file), 60)}, ${durationWords(log.duration)}: ${levelCounts(findings) || "no finding"}`,
    width,
  );
  const foot = footLines(diagnosis, width);
  const room = Math.max(4, height - head.length - foot.length - 3);
  const [first] = whatFirst(diagnosis);
  const lines = [
    ...head.map(pen.strong),
    "",
    ...wrap(first!.headline, width).map((line) => pen.level(first!.level, line)),
    ...eventLines(bySeverity(findings), width, room, pen),
    ...(foot.length === 0 ? [] : ["", ...foot.map(pen.faint)]),
  ];
  return `${lines.join("\n")}\n`;
}

/**
 * Every event gets its name and time; what happened follows while there is room for all lines. Notes are counted; where
 * there is nothing else, those that came nearest to trouble are told.
 */
function eventLines(findings: readonly Finding[], width: number, room: number, pen: Ink): string[] {
  const isNote = ({ lead }: FlightEvent) => lead.severity === "note";
  const all = eventsOf(findings);
  const events = all.every(isNote) ? eventsOf(nearestNotes(findings)) : all.filter((event) => !isNote(event));
  const notes = all.length - events.length;
  const closing = (left: number) => {
    const more = [left === 0 ? "" : countWords(left, "more", "more"), notes === 0 ? "" : countWords(notes, "note")];
    const parts = more.filter((part) => part !== "");
    return parts.length === 0 ? [] : [`and ${parts.join(" and ")} in the report`];
  };
  const short = events.map((event) => [nameLine(event, width, pen)]);
  const long = events.map((event, index) => [
    ...short[index]!,
    ...wrap(plainText(eventGist(event), 400), width - INDENT.length).map((line) => INDENT + line),
  ]);
  const lines: string[] = [];
  const last = closing(0).length;
  for (const index of events.keys()) {
    const later = events.length - index - 1 + last;
    const fits = (block: readonly string[]) => lines.length + block.length + later <= room;
    if (fits(long[index]!)) lines.push(...long[index]!);
    else if (fits(short[index]!) || lines.length + 1 < room) lines.push(...short[index]!);
    else return [...lines, ...closing(events.length - index)];
  }
  return [...lines, ...closing(0)];
}

function nameLine(event: FlightEvent, width: number, pen: Ink): string {
  const { severity } = event.lead;
  const when = spanWords(event.lead);
  const room = Math.max(10, width - when.length - 14);
  const names = [eventName(event), briefName(event), [...findingName(event.lead)].slice(0, room).join("")];
  const name = names.find((one) => [...one].length <= room)!;
  return `${pen.level(severity, severity.toUpperCase().padEnd(9))} ${name}, ${when}`;
}

const briefName = ({ lead, others }: FlightEvent) =>
  others.length === 0 ? findingName(lead) : `${findingName(lead)} (and ${others.length} more)`;

function footLines(diagnosis: Diagnosis, width: number): string[] {
  const missing = notExaminedLines(diagnosis).map(({ subject }) => plainText(subject, 40));
  const questions = diagnosis.log.questions.length;
  return [
    ...(missing.length === 0 ? [] : wrap(`Not examined with this log: ${missing.join(", ")}.`, width)),
    ...(questions === 0
      ? []
      : wrap(
          `To confirm: ${plainText(diagnosis.log.questions[0]!.text, 120)}${questions > 1 ? ` (and ${questions - 1} more in the report)` : ""}`,
          width,
        )),
    ...(asksForNothing(diagnosis) ? wrap(CAUTIONS.absence, width) : []),
  ];
}

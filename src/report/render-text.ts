import { findingName } from "../charts/index.ts";
import { CAUTIONS } from "../findings/cautions.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import type { Finding } from "../findings/finding.ts";
import { durationWords, plainText, secondsWords } from "../words/index.ts";

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
 * The summary for a terminal: what to do first, then the findings from the most severe on, in as many lines as fit one
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
    ...findingLines(bySeverity(findings), width, room, pen),
    "",
    ...foot.map(pen.faint),
  ];
  return `${lines.join("\n")}\n`;
}

/** Every finding gets its name and time; the summaries follow while there is room for all lines. */
function findingLines(findings: readonly Finding[], width: number, room: number, pen: Ink): string[] {
  const short = findings.map((finding) => [nameLine(finding, width, pen)]);
  const long = findings.map((finding, index) => [
    ...short[index]!,
    ...wrap(plainText(finding.summary, 400), width - INDENT.length).map((line) => INDENT + line),
  ]);
  const lines: string[] = [];
  for (const index of findings.keys()) {
    const later = findings.length - index - 1;
    const fits = (block: readonly string[]) => lines.length + block.length + later <= room;
    if (fits(long[index]!)) lines.push(...long[index]!);
    else if (fits(short[index]!) || lines.length + 1 < room) lines.push(...short[index]!);
    else return [...lines, `and ${findings.length - index} more in the report`];
  }
  return lines;
}

function nameLine(finding: Finding, width: number, pen: Ink): string {
  const when = `${secondsWords(finding.start)} to ${secondsWords(finding.end)}`;
  const name = [...findingName(finding)].slice(0, Math.max(10, width - when.length - 14)).join("");
  return `${pen.level(finding.severity, finding.severity.toUpperCase().padEnd(9))} ${name}, ${when}`;
}

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

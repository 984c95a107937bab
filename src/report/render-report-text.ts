import { STANDING_CAUTIONS } from "../findings/cautions.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import type { Finding } from "../findings/finding.ts";
import { capital, durationWords, measureName, measureWords, plainText, spanWords } from "../words/index.ts";

import { confidenceWords } from "./confidence-words.ts";
import { eventName } from "./events.ts";
import { aircraftName, fileName } from "./page/section-first.ts";
import { isStepMeasure } from "./step-authority.ts";
import { wrap } from "./terminal.ts";
import { findingLabel, notExaminedLines, whatFirst } from "./what-first.ts";

const WIDTH = 78;

/** The whole report in plain text, for trackers and mail that take no pictures: the page's order, without its charts. */
export function renderReportText(diagnosis: Diagnosis): string {
  const { findings, log, run } = diagnosis;
  const parts = [
    ...wrap(`${aircraftName(diagnosis)}: what the flight log says`, WIDTH),
    ...wrap(`${plainText(fileName(log.file), 120)}, ${durationWords(log.duration)}, SHA-256 ${log.sha256}`, WIDTH),
    "",
    ...whatFirst(diagnosis).flatMap(({ level, headline, events }) => [
      ...wrap(`${level.toUpperCase()}: ${headline}`, WIDTH),
      ...events.flatMap((event) => {
        return item(`${eventName(event)}, ${spanWords(event.lead)}`);
      }),
    ]),
    ...findingTexts(findings, "What happened, in order of time", ({ severity }) => severity !== "note"),
    ...findingTexts(findings, "For the record: nothing to act on", ({ severity }) => severity === "note"),
    ...log.questions.flatMap(({ text }, index) => [
      ...(index === 0 ? section("To confirm") : []),
      ...item(plainText(text, 300)),
    ]),
    ...section("Not examined"),
    ...(diagnosis.notExamined.length === 0 ? ["Nothing was left out."] : []),
    ...notExaminedLines(diagnosis).flatMap(({ subject, needs, why }) =>
      item(
        [`${plainText(subject, 60)}:`, needs === "" ? "" : `needs ${plainText(needs, 300)}.`, plainText(why, 300)]
          .filter((part) => part !== "")
          .join(" "),
      ),
    ),
    ...section("Before anyone acts on this"),
    ...STANDING_CAUTIONS.flatMap(item),
    "",
    `Fettle ${plainText(run.version, 40)}, ${plainText(run.at, 40)}`,
  ];
  return `${parts.join("\n")}\n`;
}

/** Some of the findings under one heading, each with its number among all. */
function findingTexts(findings: readonly Finding[], title: string, isOne: (finding: Finding) => boolean): string[] {
  const texts = findings.flatMap((finding, index) => (isOne(finding) ? [...findingText(finding, index + 1), ""] : []));
  return texts.length === 0 ? [] : [...section(title), ...texts];
}

function findingText(finding: Finding, number: number): string[] {
  const { severity, summary, meaning, next, cautions, measures } = finding;
  const numbers = Object.entries(measures)
    .filter(([key]) => !isStepMeasure(key))
    .flatMap(([key, value]) =>
      Array.isArray(value)
        ? value.map((each) => `${measureName(key)}, motor ${each.motor}: ${measureWords(key, each)}`)
        : [`${measureName(key)}: ${measureWords(key, value)}`],
    );
  return [
    ...wrap(`${findingLabel(finding, number)} [${severity}] ${spanWords(finding)}`, WIDTH),
    ...paragraph(summary),
    ...paragraph(`${capital(confidenceWords(finding))}.`),
    ...paragraph(`Why it matters: ${meaning}`),
    ...titled("What to check next", next),
    ...titled("What not to do, and what to mind", cautions),
    ...titled("Measured", numbers),
  ];
}

function section(title: string): string[] {
  return ["", title, "-".repeat(title.length)];
}

function titled(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [`  ${title}:`, ...lines.flatMap(item)];
}

function paragraph(text: string): string[] {
  return wrap(plainText(text, 2000), WIDTH - 2).map((line) => `  ${line}`);
}

function item(text: string): string[] {
  return wrap(capital(plainText(text, 2000)), WIDTH - 4).map((line, index) =>
    index === 0 ? `  - ${line}` : `    ${line}`,
  );
}

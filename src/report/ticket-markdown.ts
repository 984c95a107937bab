import { type Chart, findingName } from "../charts/index.ts";
import { STANDING_CAUTIONS } from "../findings/cautions.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import type { Finding } from "../findings/finding.ts";
import { countWords, durationWords, spanWords } from "../words/index.ts";

import { escapeMarkdown } from "./escape-markdown.ts";
import { eventsOf } from "./events.ts";
import { aircraftName, fileName } from "./page/section-first.ts";
import { safeFileName } from "./safe-file-name.ts";
import { bySeverity, notExaminedLines, whatFirst } from "./what-first.ts";

/** Pictures that stand in the ticket itself; the others lie beside it. */
const PICTURES = 3;
/** characters of a summary */
const LONGEST = 800;

/** The ticket: aircraft, log with its checksum, what to do, findings, pictures, in about one screen. */
export function ticketMarkdown(diagnosis: Diagnosis, charts: readonly Chart[]): string {
  const { log, run, findings } = diagnosis;
  const worst = bySeverity(findings).filter(({ severity }) => severity !== "note");
  const notes = findings.length - worst.length;
  const pictured = [...worst.flatMap((finding) => finding.charts.slice(0, 1)), "timeline", "motor-commands"];
  const shown = [...new Set(pictured)].flatMap((id) => charts.filter((chart) => chart.id === id)).slice(0, PICTURES);
  const missing = notExaminedLines(diagnosis).map(({ subject }) => escapeMarkdown(subject, 40));
  const [first] = whatFirst(diagnosis);
  return `# ${escapeMarkdown(aircraftName(diagnosis), 80)}: ${first!.headline}

| | |
|---|---|
| Log | ${escapeMarkdown(fileName(log.file), 100)}, ${durationWords(log.duration)}${log.start === null ? "" : `, starts ${escapeMarkdown(log.start, 40)}`} |
| SHA-256 | ${log.sha256} |
| Examined | ${escapeMarkdown(run.at, 40)}, Fettle ${escapeMarkdown(run.version, 40)} |
| Not examined | ${missing.length === 0 ? "nothing left out" : missing.join(", ")} |

## Findings

${
  findings.length === 0
    ? "Nothing was found in what was examined.\n"
    : `| level | time | finding |\n|---|---|---|\n${[
        ...worst.map(row),
        ...(notes === 0 ? [] : [`| note | | ${countWords(notes, "note")}, nothing to act on: see the report. |`]),
      ].join("\n")}\n`
}
${shown.map((chart) => `![${escapeMarkdown(chart.title, 200)}](charts/${safeFileName(chart.id)}.png)`).join("\n\n")}

## To do

${todo(eventsOf(worst).map(({ lead }) => lead))}

---

${STANDING_CAUTIONS.map((caution) => `> ${escapeMarkdown(caution)}`).join("\n>\n")}

Everything else: \`diagnosis.json\`, and each chart as picture and as specification in \`charts/\`.
`;
}

const row = (finding: Finding) =>
  `| ${finding.severity} | ${spanWords(finding)} | **${escapeMarkdown(findingName(finding), 80)}.** ${escapeMarkdown(finding.summary, LONGEST)} |`;

const MOST_STEPS = 10;

/** The next steps, as boxes to tick: the first of every event before the second of any. */
function todo(findings: Diagnosis["findings"]): string {
  const rounds = Math.max(0, ...findings.map(({ next }) => next.length));
  const steps = Array.from({ length: rounds }, (_, round) => findings.flatMap(({ next }) => next[round] ?? [])).flat();
  const unique = [...new Set(steps)].slice(0, MOST_STEPS);
  if (unique.length === 0) return "Nothing.";
  return [BATTERY_FIRST, ...unique].map((step) => `- [ ] ${escapeMarkdown(step)}`).join("\n");
}

const BATTERY_FIRST = "Disconnect the battery, and keep it so until no hand is near a propeller.";

import type { Chart } from "../../charts/index.ts";
import type { Comparison } from "../../findings/comparison/index.ts";
import { durationWords } from "../../words/index.ts";
import { escapeMarkdown } from "../escape-markdown.ts";
import { aircraftName } from "../page/section-first.ts";
import { bundleTicket, type Ticket } from "../render-ticket.ts";
import { safeFileName } from "../safe-file-name.ts";
import { shortPath } from "./section-first.ts";
import { stepLines } from "./steps-table.ts";

/** Pictures that stand in the ticket itself; the others lie beside it. */
const PICTURES = 3;

/** The ticket bundle of a comparison: Markdown, each chart as picture and specification, and the comparison itself. */
export function renderComparisonTicket(comparison: Comparison, charts: readonly Chart[]): Promise<Ticket> {
  return bundleTicket(ticketMarkdown(comparison, charts), { name: "comparison.json", content: comparison }, charts);
}

function ticketMarkdown(comparison: Comparison, charts: readonly Chart[]): string {
  const { before, after, statements, nextStep, leftOut, cautions, run } = comparison;
  const bullet = (text: string) => `- ${escapeMarkdown(text)}`;
  const flight = ({ log }: Comparison["before"]) =>
    `${escapeMarkdown(shortPath(log.file), 100)}, ${durationWords(log.duration)}, SHA-256 ${log.sha256}`;
  const cells = stepLines(comparison).map(
    ({ name, power, powerChange, axes, room }) =>
      `| ${[name, power, powerChange, ...axes.map(({ words }) => words), room.words].map((cell) => escapeMarkdown(cell)).join(" | ")} |`,
  );
  return `# ${escapeMarkdown(aircraftName(comparison), 80)}: before and after

| | |
|---|---|
| Before | ${flight(before)} |
| After | ${flight(after)} |
| Compared | ${escapeMarkdown(run.at, 40)}, Fettle ${escapeMarkdown(run.version, 40)} |
| Left out | ${leftOut.length === 0 ? "nothing" : leftOut.map(({ subject }) => escapeMarkdown(subject, 80)).join(", ")} |

${statements.map(({ text }) => bullet(text)).join("\n")}

| speed | power | change | roll | pitch | yaw | room |
|---|---|---|---|---|---|---|
${cells.join("\n")}

${charts
  .slice(0, PICTURES)
  .map((chart) => `![${escapeMarkdown(chart.title, 200)}](charts/${safeFileName(chart.id)}.png)`)
  .join("\n\n")}

${nextStep === null ? "" : `## The next speed step\n\n${escapeMarkdown(nextStep.statement)}\n\n${[...nextStep.reasons, ...nextStep.firstSeen].map(bullet).join("\n")}\n`}
---

${cautions.map((caution) => `> ${escapeMarkdown(caution)}`).join("\n>\n")}

Everything else: \`comparison.json\`, and each chart as picture and as specification in \`charts/\`.
`;
}

import type { Comparison } from "../../findings/comparison/index.ts";
import { durationWords, plainText } from "../../words/index.ts";
import { type Html, html } from "../html.ts";
import { aircraftName, fileName } from "../page/section-first.ts";

/** The top of the page: which flights, and what to read first. */
export function sectionFirst(comparison: Comparison): Html {
  const { statements, leftOut, run, nextStep } = comparison;
  return html`<header>
<h1>${aircraftName(comparison)}: before and after</h1>
${(["before", "after"] as const).map((side) => {
  const { log } = comparison[side];
  return html`<p class="facts">${side === "before" ? "Before" : "After"}: <bdi>${plainText(shortPath(log.file), 120)}</bdi> · ${durationWords(log.duration)} of log${log.start !== null && html` · starts ${plainText(log.start, 40)}`}${changedNotes(comparison, side)}</p>`;
})}
<p class="facts">Compared ${run.at.slice(0, 16).replace("T", " ")} UTC</p>
<ol class="first" aria-label="What to read first">
${nextStep !== null && nextStepFirst(nextStep, statements[0]!.level)}
${statements
  .filter(({ topic }) => topic !== "next-step")
  .map(
    ({ level, topic, text }) =>
      html`<li class="${level} small"><span class="badge ${level}">${topic}</span><p class="prose">${text}</p></li>`,
  )}
${leftOut.length > 0 && html`<li class="note small"><span class="badge note">left out</span><p>${leftOut.map(({ subject }) => subject).join(", ")}. <a href="#left-out">Why</a></p></li>`}
</ol>
</header>`;
}

/** The next step stands first and large, with the reasons that weigh most. */
function nextStepFirst({ statement, reasons }: NonNullable<Comparison["nextStep"]>, level: string): Html {
  return html`<li class="${level}"><span class="badge ${level}">next step</span>
<p class="headline">${statement}</p>
${reasons.length > 0 && html`<ul>${reasons.slice(0, 3).map((reason) => html`<li>${reason}</li>`)}</ul>`}
<p><a href="#next-step">Why, what would be seen first, and what was not examined</a></p></li>`;
}

/** The file with its folder: two flights often have the same file name. */
export function shortPath(path: string): string {
  const parts = path.split(/[\\/]/).filter((part) => part !== "");
  return parts.length < 2 ? fileName(path) : `${parts.at(-2)}/${parts.at(-1)}`;
}

/** The crew's notes that differ between the flights: what was changed. */
function changedNotes({ before, after }: Comparison, side: "before" | "after"): Html {
  const own = { before, after }[side].notes;
  const other = { before: after, after: before }[side].notes;
  const changed = Object.entries(own).filter(([key, note]) => other[key] !== note);
  return html`${changed.map(([key, note]) => html` · ${plainText(key, 40)}: <bdi>${plainText(note, 120)}</bdi>`)}`;
}

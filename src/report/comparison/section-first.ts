import type { Comparison } from "../../findings/comparison/index.ts";
import { durationWords, plainText } from "../../words/index.ts";
import { type Html, html } from "../html.ts";
import { aircraftName, fileName } from "../page/section-first.ts";

/** The top of the page: which flights, and what to read first. */
export function sectionFirst(comparison: Comparison): Html {
  const { statements, leftOut, run } = comparison;
  return html`<header>
<h1>${aircraftName(comparison)}: before and after</h1>
${(["before", "after"] as const).map((side) => {
  const { log } = comparison[side];
  return html`<p class="facts">${side === "before" ? "Before" : "After"}: <bdi>${plainText(shortPath(log.file), 120)}</bdi> · ${durationWords(log.duration)} of log${log.start !== null && html` · starts ${plainText(log.start, 40)}`}${changedNotes(comparison, side)}</p>`;
})}
<p class="facts">Compared ${run.at.slice(0, 16).replace("T", " ")} UTC</p>
<ol class="first" aria-label="What to read first">
${statements.map(
  ({ level, topic, text }, index) =>
    html`<li class="${level} ${index === 0 && topic === "next-step" ? "" : "small"}"><span class="badge ${level}">${topic === "next-step" ? "next step" : topic}</span>
<p class="${index === 0 && topic === "next-step" ? "headline" : ""}">${text}</p>${topic === "next-step" && html`<p><a href="#next-step">Why, what would be seen first, and what was not examined</a></p>`}</li>`,
)}
${leftOut.length > 0 && html`<li class="note small"><span class="badge note">left out</span><p>${leftOut.map(({ subject }) => subject).join(", ")}. <a href="#left-out">Why</a></p></li>`}
</ol>
</header>`;
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

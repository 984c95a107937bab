import type { Diagnosis } from "../../findings/diagnosis.ts";
import { capital, plainText } from "../../words/index.ts";

import { type Html, html } from "../html.ts";
import { notExaminedLines } from "../what-first.ts";

/** What this log could not answer, and which channel would answer it. */
export function sectionNotExamined(diagnosis: Diagnosis): Html {
  const lines = notExaminedLines(diagnosis);
  return html`<section aria-labelledby="not-examined"><h2 id="not-examined">Not examined</h2>
${
  lines.length === 0
    ? html`<p>Everything that this version can examine was examined.</p>`
    : html`<p>Silence about these subjects says nothing either way.</p>
<div class="scroll" tabindex="0" role="region" aria-label="Subjects not examined"><table><thead><tr><th scope="col">Subject</th><th scope="col">What it would take</th></tr></thead>
<tbody>${lines.map(({ subject, needs, why }) => html`<tr><th scope="row">${capital(plainText(subject, 60))}</th><td>${needs !== "" && html`<code>${plainText(needs, 300)}</code>`} ${plainText(why, 300)}</td></tr>`)}</tbody></table></div>`
}
</section>`;
}

import { STANDING_CAUTIONS } from "../../findings/cautions.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";
import { plainText } from "../../words/index.ts";

import { type Html, html } from "../html.ts";
import { fileName } from "./section-first.ts";

/** The standing cautions, the crew's notes, and what it takes to make this report again. */
export function sectionClose(diagnosis: Diagnosis): Html {
  return html`<section aria-labelledby="cautions" class="keep"><h2 id="cautions">Before anyone acts on this</h2>
<ul class="prose">${STANDING_CAUTIONS.map((caution) => html`<li>${caution}</li>`)}</ul></section>
${notes(diagnosis)}
<section aria-labelledby="trace" class="keep"><h2 id="trace">To make this report again</h2>
<div class="scroll" tabindex="0" role="region" aria-label="Files and versions"><table><tbody>
${files(diagnosis).map(([what, file, sha256]) => html`<tr><th scope="row">${what}</th><td><bdi>${plainText(fileName(file), 120)}</bdi></td><td><code>${sha256}</code></td></tr>`)}
<tr><th scope="row">Fettle</th><td>${plainText(diagnosis.run.version, 40)}</td><td>seed ${diagnosis.run.seed}, ${plainText(diagnosis.run.at, 40)}</td></tr>
</tbody></table></div></section>`;
}

function files({ log, run }: Diagnosis): [string, string, string][] {
  const given = [
    ["Log", log],
    ["Channel map", run.channels],
    ["Aircraft file", run.aircraft],
    ["Baseline", run.baseline],
    ["Aircraft file of the baseline", run.baselineAircraft ?? null],
  ] as const;
  return given.flatMap(([what, file]) =>
    file === null ? [] : [[what, file.file, file.sha256] as [string, string, string]],
  );
}

function notes({ aircraft }: Diagnosis): Html {
  const entries = Object.entries((aircraft.notes ?? {}) as Record<string, unknown>);
  if (entries.length === 0) return html``;
  return html`<section aria-labelledby="notes" class="keep"><h2 id="notes">Notes of the crew</h2>
<table><tbody>${entries.map(([key, note]) => html`<tr><th scope="row"><bdi>${plainText(key, 60)}</bdi></th><td><bdi>${plainText(String(note), 400)}</bdi></td></tr>`)}</tbody></table></section>`;
}

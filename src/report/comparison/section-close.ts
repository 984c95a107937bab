import type { Comparison } from "../../findings/comparison/index.ts";
import { numberWords, plainText, secondsWords } from "../../words/index.ts";
import { type Html, html } from "../html.ts";
import { shortPath } from "./section-first.ts";

/** What was left out, what each flight's own diagnosis found, methods, cautions, and what it takes to do it again. */
export function sectionClose(comparison: Comparison): Html {
  const { leftOut, methods, cautions, run } = comparison;
  return html`${findings(comparison)}
<section aria-labelledby="left-out"><h2 id="left-out">Left out</h2>
${leftOut.length === 0 ? html`<p>Everything that both logs allow was compared.</p>` : html`<ul class="prose">${leftOut.map(({ subject, why }) => html`<li>${subject}: ${why}.</li>`)}</ul>`}
${wind(comparison)}</section>
<section aria-labelledby="methods"><h2 id="methods">How the numbers were computed</h2>
${methods.map(({ title, text, sources }) => html`<div class="keep"><h3 class="minor">${title}</h3><p class="prose">${text}</p><ul class="facts">${sources.map((source) => html`<li>${source}</li>`)}</ul></div>`)}</section>
<section aria-labelledby="cautions" class="keep"><h2 id="cautions">Before anyone acts on this</h2>
<ul class="prose">${cautions.map((caution) => html`<li>${caution}</li>`)}</ul></section>
<section aria-labelledby="trace" class="keep"><h2 id="trace">To make this comparison again</h2>
<div class="scroll" tabindex="0" role="region" aria-label="Files and versions"><table><tbody>
${files(comparison).map(([what, file, sha256]) => html`<tr><th scope="row">${what}</th><td><bdi>${plainText(shortPath(file), 120)}</bdi></td><td><code>${sha256}</code></td></tr>`)}
<tr><th scope="row">Fettle</th><td>${plainText(run.version, 40)}</td><td>seed ${run.seed}, ${plainText(run.at, 40)}</td></tr>
</tbody></table></div></section>`;
}

function findings(comparison: Comparison): Html {
  const sides = (["before", "after"] as const).map((side) => ({ side, found: comparison[side].findings }));
  return html`<section aria-labelledby="findings"><h2 id="findings">What each flight's own diagnosis found</h2>
${sides.map(
  ({ side, found }) => html`<h3 class="minor">${side === "before" ? "Before" : "After"}</h3>
${found.length === 0 ? html`<p>No warning and no caution in what was examined.</p>` : html`<ul class="prose">${found.map(({ severity, summary, start }) => html`<li class="${severity}"><span class="badge ${severity}">${severity}</span> ${summary} <span class="faint">at ${secondsWords(start)}</span></li>`)}</ul>`}`,
)}</section>`;
}

function wind(comparison: Comparison): Html {
  return html`<p>${(["before", "after"] as const)
    .map((side) => {
      const { by, wind: blown } = comparison[side].air;
      if (by === "logged") return `Wind ${side}: speed through the air is logged`;
      if (blown === null) return `Wind ${side}: cannot be told from this log`;
      const from = (((Math.atan2(-blown.east, -blown.north) * 180) / Math.PI + 360) % 360).toFixed(0);
      return `Wind ${side}: ${numberWords(Math.hypot(blown.north, blown.east), 2)} m/s from ${from} degrees (standard error ${numberWords(blown.error, 1)} m/s), from the lean`;
    })
    .join(". ")}.</p>`;
}

function files({ before, after }: Comparison): [string, string, string][] {
  return [
    ...(
      [
        ["Log before", before.log],
        ["Log after", after.log],
        ["Channel map before", before.channels],
        ["Channel map after", after.channels],
        ["Aircraft file before", before.aircraft],
        ["Aircraft file after", after.aircraft],
      ] as const
    ).flatMap(([what, file]) => (file === null ? [] : [[what, file.file, file.sha256] as [string, string, string]])),
  ];
}

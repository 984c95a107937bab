import type { Chart } from "../../charts/index.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";
import { displayUnit, numberWords, percentWords, plainText, secondsWords } from "../../words/index.ts";

import { type Html, html } from "../html.ts";
import { figure } from "./figure.ts";

/** What the log held and how it was read: channels, matches, open questions. */
export function sectionLog({ log }: Diagnosis, quality: Chart | undefined): Html {
  return html`<section aria-labelledby="log"><h2 id="log">State of the log</h2>
${log.questions.length > 0 && html`<h3 class="minor">To confirm</h3><ul>${log.questions.map(({ column, channel, text }) => html`<li>${plainText(text, 300)} <span class="faint">(column <code><bdi>${plainText(column, 80)}</bdi></code>, taken as <code>${channel}</code>)</span></li>`)}</ul>`}
${quality && figure(quality)}
<div class="scroll" tabindex="0" role="region" aria-label="Channels of the log"><table><caption>Channels that were read</caption>
<thead><tr><th scope="col">Channel</th><th scope="col">Column in the log</th><th scope="col">Unit</th><th scope="col">Samples a second</th><th scope="col">Covers</th><th scope="col">Longest pause</th></tr></thead>
<tbody>${log.channels.map(
    ({ name, column, unit, rate, coverage, longestGap }) =>
      html`<tr><th scope="row"><code>${plainText(name, 60)}</code></th><td><code><bdi>${plainText(column, 80)}</bdi></code></td><td>${name.startsWith("motor.") ? plainText(unit, 20) : displayUnit(unit).label}</td><td>${numberWords(rate)}</td><td>${percentWords(coverage)}</td><td>${secondsWords(longestGap)}</td></tr>`,
  )}</tbody></table></div>
${
  log.matches.length > 0 &&
  html`<div class="scroll" tabindex="0" role="region" aria-label="How columns were matched"><table><caption>No channel map was given; columns were matched by the words in their names</caption>
<thead><tr><th scope="col">Column</th><th scope="col">Taken as</th><th scope="col">Unit</th><th scope="col">How sure</th><th scope="col">Why</th></tr></thead>
<tbody>${log.matches.map(
    ({ column, channel, unit, confidence, why }) =>
      html`<tr><th scope="row"><code><bdi>${plainText(column, 80)}</bdi></code></th><td><code>${plainText(channel, 60)}</code></td><td>${plainText(unit, 20)}</td><td>${percentWords(confidence)}</td><td>${plainText(why, 160)}</td></tr>`,
  )}</tbody></table></div>`
}
</section>`;
}

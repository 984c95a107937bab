import { type Chart, findingName } from "../../charts/index.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";
import { secondsWords } from "../../words/index.ts";

import { type Html, html } from "../html.ts";
import { figure } from "./figure.ts";

/** The flight as a line of time, the findings to choose from, and the bar that says what the charts show. */
export function sectionTimeline({ findings }: Diagnosis, timeline: Chart | undefined): Html {
  const choices = findings
    .map((finding, index) => ({ finding, number: index + 1 }))
    .filter(({ finding }) => finding.severity !== "note");
  return html`<section aria-labelledby="flight"><h2 id="flight">The flight</h2>
${timeline && figure(timeline)}
${
  choices.length > 0 &&
  html`<p class="prose facts hand">Choose a finding and every chart moves to its time.</p>
<ol class="list">${choices.map(
    ({ finding, number }) =>
      html`<li><button type="button" class="${finding.severity}" data-finding="${finding.id}" aria-pressed="false"><span class="number">${number}</span><span>${findingName(finding)}</span><span class="when">${secondsWords(finding.start)}</span></button></li>`,
  )}</ol>`
}
<p id="keys" class="facts hand">On a chart: left and right read values, with Shift they move the stretch, + and − look closer and wider, Backspace goes back, Escape shows what the chart showed at first. With a mouse: drag over a stretch to look closer, double-click to go back.</p>
</section>`;
}

/** Says which stretch the charts show; buttons do what the keys do. Hidden where scripts do not run. */
export function windowBar(): Html {
  return html`<div class="bar" role="group" aria-label="Stretch that the charts show" hidden>
<output>each chart shows its own stretch</output>
<button type="button" data-go="earlier">Earlier</button><button type="button" data-go="later">Later</button><button type="button" data-go="closer">Closer</button><button type="button" data-go="wider">Wider</button><button type="button" data-go="back" disabled>Back</button><button type="button" data-go="home" disabled>As at first</button>
</div>`;
}

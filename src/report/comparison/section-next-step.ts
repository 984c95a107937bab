import type { Chart } from "../../charts/index.ts";
import { type Comparison, forecastValue } from "../../findings/comparison/index.ts";
import { numberWords } from "../../words/index.ts";
import { type Html, html } from "../html.ts";
import { figure } from "../page/figure.ts";

/** What may be said of one speed step more, why, what would be seen first, and what nobody looked at. */
export function sectionNextStep({ nextStep }: Comparison, charts: readonly Chart[]): Html {
  if (nextStep === null) return html``;
  const { statement, reasons, firstSeen, notExamined, cautions, forecasts, speed, fastest } = nextStep;
  return html`<section aria-labelledby="next-step"><h2 id="next-step">The next speed step</h2>
<p><strong>${statement}</strong> The fastest step flown was ${numberWords(fastest, 3)} m/s.</p>
${list("Why", reasons)}
${list("What would be seen first if it goes wrong", firstSeen)}
${list("Before anyone goes faster", cautions)}
${
  forecasts.length > 0 &&
  html`<div class="scroll" tabindex="0" role="region" aria-label="If the trend goes on"><table><caption>If the trend goes on (flight after; 90 % intervals)</caption>
<thead><tr><th scope="col">What</th><th scope="col">At ${numberWords(fastest, 3)} m/s</th><th scope="col">At ${numberWords(speed, 3)} m/s</th><th scope="col">Between</th><th scope="col">Against below</th><th scope="col">Limit met at</th><th scope="col">In a word</th></tr></thead>
<tbody>${forecasts.map(({ name, quantity, flown, next, limit, speedAtLimit, verdict }) => {
    const words = (value: number) => forecastValue(quantity, value);
    return html`<tr><th scope="row">${name}</th><td>${words(flown)}</td><td>${words(next.value)}</td><td>${words(next.low)} to ${words(next.high)}</td><td>${words(limit)}</td><td>${speedAtLimit === null ? "not near" : `${speedAtLimit <= fastest ? "already at " : ""}${numberWords(speedAtLimit, 2)} m/s`}</td><td class="${verdict === "against" ? "told worse" : "quiet"}">${VERDICTS[verdict]}</td></tr>`;
  })}</tbody></table></div>`
}
<div class="pair">${charts.map((chart) => figure(chart))}</div>
${list("What was not examined", notExamined)}</section>`;
}

const VERDICTS = {
  against: "against the step",
  undecided: "cannot be said",
  "not-against": "not against it",
} as const;

function list(title: string, lines: readonly string[]): Html {
  if (lines.length === 0) return html``;
  return html`<h3 class="minor">${title}</h3><ul class="prose">${lines.map((line) => html`<li>${line}</li>`)}</ul>`;
}

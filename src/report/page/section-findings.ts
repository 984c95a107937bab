import { type Chart, findingName, summaryTitle } from "../../charts/index.ts";
import type { Diagnosis } from "../../findings/diagnosis.ts";
import type { Finding } from "../../findings/finding.ts";
import { capital, spanWords } from "../../words/index.ts";

import { confidenceWords } from "../confidence-words.ts";
import { type Html, html } from "../html.ts";
import { figure } from "./figure.ts";
import { measureList } from "./measure-list.ts";

/** Findings in order of time, each with its chart beside it; what asks for nothing comes after, in a section of its own. */
export function sectionFindings({ findings }: Diagnosis, chartsOf: (finding: Finding) => readonly Chart[]): Html {
  const numbered = findings.map((finding, index) => ({
    isNote: finding.severity === "note",
    item: item(finding, index + 1, chartsOf(finding)),
  }));
  const itemsOf = (notes: boolean) => numbered.filter(({ isNote }) => isNote === notes).map(({ item }) => item);
  return html`${thread("findings", "What happened, in order of time", itemsOf(false))}${thread("for-the-record", "For the record: nothing to act on", itemsOf(true))}`;
}

function thread(id: string, title: string, items: readonly Html[]): Html {
  if (items.length === 0) return html``;
  return html`<section aria-labelledby="${id}"><h2 id="${id}">${title}</h2>
<ol class="thread">${items}</ol></section>`;
}

function item(finding: Finding, number: number, charts: readonly Chart[]): Html {
  const { id, severity } = finding;
  return html`<li class="finding ${severity}" id="${id}" data-finding="${id}">
<div class="top"><h3><span class="number">${number}</span> ${findingName(finding)}</h3><span class="badge ${severity}">${severity}</span>
<p class="when">${spanWords(finding)}</p>
<button type="button" data-finding="${id}" aria-pressed="false" aria-label="Show in all charts: finding ${number}, ${findingName(finding)}">Show in all charts</button></div>
${severity === "note" ? folded(finding, charts) : [said(finding), seen(finding, charts)]}
</li>`;
}

/** A finding that asks for nothing stays one sentence until somebody wants to know more. */
function folded(finding: Finding, charts: readonly Chart[]): Html {
  return html`<div class="folded"><p>${finding.summary}</p>
<details><summary>More: meaning, numbers, chart</summary><div class="open">${said(finding, false)}${seen(finding, charts)}</div></details></div>`;
}

function said(finding: Finding, withSummary = true): Html {
  const { summary, meaning, next, cautions } = finding;
  return html`<div class="said">
${withSummary && html`<p class="summary">${summary}</p>`}
<h4>How sure</h4><p>${capital(confidenceWords(finding))}.</p>
<h4>Why it matters</h4><p>${meaning}</p>
${next.length > 0 && html`<h4>What to check next</h4><ol>${next.map((step) => html`<li>${step}</li>`)}</ol>`}
${cautions.length > 0 && html`<div class="dont"><h4>What not to do, and what to mind</h4><ul>${cautions.map((caution) => html`<li>${caution}</li>`)}</ul></div>`}
</div>`;
}

function seen(finding: Finding, charts: readonly Chart[]): Html {
  const { summary, charts: ids } = finding;
  const elsewhere = ids.filter((id) => !charts.some((chart) => chart.id === id));
  return html`<div class="seen">${charts.map((chart) => figure(chart, { captioned: chart.title !== summaryTitle(summary) }))}${elsewhere.map(
    (id) => html`<p class="facts"><a href="#chart-${id}">See the chart of the whole flight</a></p>`,
  )}${measureList(finding)}</div>`;
}

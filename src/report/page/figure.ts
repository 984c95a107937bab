import type { Chart } from "../../charts/index.ts";
import { type Html, html } from "../html.ts";

interface ChartUse {
  readonly time?: boolean;
}

/**
 * A chart with its message, its place to draw, its read-out and its text alternative.
 * @param options captioned: false where the text beside it already says what its title says (default true)
 */
export function figure(chart: Chart, { captioned = true }: { captioned?: boolean } = {}): Html {
  const { time = false } = ((chart.spec.usermeta as { fettle?: ChartUse } | undefined)?.fettle ??
    {}) satisfies ChartUse;
  return html`<figure id="chart-${chart.id}">
<figcaption class="${captioned ? "" : "unseen"}">${chart.title}</figcaption>
${time ? timePlot(chart) : html`<div class="plot" role="img" aria-label="${chart.description}">${DRAWN}</div>`}
${time && html`<p class="readout"></p>`}
<details><summary>This chart in words</summary><p>${chart.description}</p></details>
</figure>`;
}

/** A place on a chart over time is a value on a line: to a screen reader it is a slider whose text is the read-out. */
function timePlot(chart: Chart): Html {
  return html`<div class="plot" data-time tabindex="0" role="slider" aria-label="Time in the chart: ${chart.title}" aria-valuenow="0" aria-valuetext="no time chosen" aria-describedby="keys">${DRAWN}</div>`;
}

/** What is drawn is hidden from readers of text: the place around it speaks for it. */
const DRAWN = html`<div class="drawn" aria-hidden="true"></div>`;

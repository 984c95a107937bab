import type { Chart } from "../../charts/index.ts";
import type { Comparison } from "../../findings/comparison/index.ts";
import { html } from "../html.ts";
import { packCharts } from "../pack-charts.ts";
import { htmlDocument } from "../page/html-document.ts";
import { SCRIPT_CHARTS } from "../page/script-charts.ts";
import { SCRIPT_DATA } from "../page/script-data.ts";
import { aircraftName } from "../page/section-first.ts";
import type { RuntimeAssets } from "../runtime-assets.ts";
import { sectionClose } from "./section-close.ts";
import { sectionFirst } from "./section-first.ts";
import { sectionNextStep } from "./section-next-step.ts";
import { sectionMotors, sectionPower, sectionSteadiness, sectionSteps } from "./section-steps.ts";

/** Charts of a comparison do not move in time: they are unpacked and drawn, and no more. */
const SCRIPT = `"use strict";
(() => {
${SCRIPT_DATA}${SCRIPT_CHARTS}
})();`;

/** The comparison as one HTML file; see `htmlDocument`. */
export function renderComparisonPage(
  comparison: Comparison,
  charts: readonly Chart[],
  options: { readonly assets?: RuntimeAssets } = {},
): string {
  const named = (pattern: RegExp) => charts.filter(({ id }) => pattern.test(id));
  return htmlDocument({
    title: `${aircraftName(comparison)}: before and after`,
    skip: { href: "#steps", text: "To the table of speeds" },
    body: html`${sectionFirst(comparison)}
<main>
<noscript><p class="prose">Charts need scripts, which are part of this file. Without them every chart is described in words.</p></noscript>
${sectionSteps(comparison, named(/^power-/))}
${sectionPower(comparison)}
${sectionNextStep(comparison, named(/^forecast-/))}
${sectionSteadiness(comparison, named(/^steadiness-/))}
${sectionMotors(comparison, named(/^motors-/))}
${sectionClose(comparison)}
</main>`,
    data: { whole: { start: 0, end: 1 }, findings: {}, ...packCharts(charts) },
    script: SCRIPT,
    assets: options.assets,
  });
}

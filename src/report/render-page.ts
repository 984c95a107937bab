import { createHash } from "node:crypto";
import { type Chart, findingName, findingWindow } from "../charts/index.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import type { Finding } from "../findings/finding.ts";
import { type Html, html, trusted } from "./html.ts";
import { packCharts } from "./pack-charts.ts";
import { PAGE_SCRIPT } from "./page/page-script.ts";
import { PAGE_STYLE } from "./page/page-style.ts";
import { sectionClose } from "./page/section-close.ts";
import { sectionFindings } from "./page/section-findings.ts";
import { aircraftName, sectionFirst } from "./page/section-first.ts";
import { sectionLog } from "./page/section-log.ts";
import { sectionMethods } from "./page/section-methods.ts";
import { sectionNotExamined } from "./page/section-not-examined.ts";
import { sectionRoom } from "./page/section-room.ts";
import { sectionTimeline, windowBar } from "./page/section-timeline.ts";
import { windowOfLog } from "./page/window-of-log.ts";
import { type RuntimeAssets, runtimeAssets } from "./runtime-assets.ts";

export interface PageOptions {
  /** default: read from the installed packages */
  readonly assets?: RuntimeAssets;
}

/**
 * The report as one HTML file that asks nobody for anything: style, chart runtime and data stand in it, and its content
 * security policy allows those and nothing else, each by its checksum.
 */
export function renderPage(diagnosis: Diagnosis, charts: readonly Chart[], options: PageOptions = {}): string {
  const { vega, interpreter } = options.assets ?? runtimeAssets();
  const scripts = [vega, interpreter, PAGE_SCRIPT];
  const page = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy(scripts, PAGE_STYLE)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${aircraftName(diagnosis)}: what the flight log says</title>
<style>${trusted(PAGE_STYLE)}</style></head>
<body><a class="skip" href="#flight">To the flight and its findings</a>
${body(diagnosis, charts)}
<script type="application/json" id="charts">${data(diagnosis, charts)}</script>
${scripts.map((script) => html`<script>${trusted(script)}</script>`)}
</body></html>
`;
  return page.text;
}

function body(diagnosis: Diagnosis, charts: readonly Chart[]): Html {
  const take = shelf(charts);
  const timeline = take(({ id }) => id === "timeline")[0];
  const quality = take(({ id }) => id === "data-quality")[0];
  const motors = take(({ id }) => /^(motor-commands|command-distribution)$/.test(id));
  const axes = take(
    ({ id }) => /^(tracking|authority)-/.test(id) && !diagnosis.findings.some((finding) => finding.id === id),
  );
  const ofFindings = new Map(
    diagnosis.findings.map((finding) => [finding.id, take(({ id }) => finding.charts.includes(id))]),
  );
  const rest = take(() => true);
  return html`${sectionFirst(diagnosis)}
<main>
<noscript><p class="prose">Charts need scripts, which are part of this file. Without them every chart is described in words.</p></noscript>
${windowBar()}
${sectionTimeline(diagnosis, timeline)}
${sectionFindings(diagnosis, (finding: Finding) => ofFindings.get(finding.id) ?? [])}
${sectionRoom(diagnosis, motors, [...axes, ...rest])}
${sectionNotExamined(diagnosis)}
${sectionLog(diagnosis, quality)}
${sectionMethods(diagnosis)}
${sectionClose(diagnosis)}
</main>`;
}

/** Charts to be placed; what was taken is not given twice, because an element has one id. */
function shelf(charts: readonly Chart[]): (wanted: (chart: Chart) => boolean) => Chart[] {
  let left = [...charts];
  return (wanted) => {
    const taken = left.filter(wanted);
    left = left.filter((chart) => !taken.includes(chart));
    return taken;
  };
}

/** Charts and the windows of the findings, as JSON in which no markup can begin. */
function data(diagnosis: Diagnosis, charts: readonly Chart[]): Html {
  const whole = windowOfLog(diagnosis);
  const findings = Object.fromEntries(
    diagnosis.findings.map((finding) => [
      finding.id,
      { name: findingName(finding), window: findingWindow(finding, whole) },
    ]),
  );
  const json = JSON.stringify({ whole, findings, ...packCharts(charts) });
  return trusted(json.replace(/[<\u2028\u2029]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`));
}

function policy(scripts: readonly string[], style: string): string {
  const hash = (text: string) => `'sha256-${createHash("sha256").update(text, "utf8").digest("base64")}'`;
  return [
    "default-src 'none'",
    `script-src ${scripts.map(hash).join(" ")}`,
    `style-src ${hash(style)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}

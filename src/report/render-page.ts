import { type Chart, findingName, findingWindow } from "../charts/index.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import type { Finding } from "../findings/finding.ts";
import { type Html, html } from "./html.ts";
import { packCharts } from "./pack-charts.ts";
import { htmlDocument } from "./page/html-document.ts";
import { PAGE_SCRIPT } from "./page/page-script.ts";
import { sectionClose } from "./page/section-close.ts";
import { sectionFindings } from "./page/section-findings.ts";
import { aircraftName, sectionFirst } from "./page/section-first.ts";
import { sectionLog } from "./page/section-log.ts";
import { sectionMethods } from "./page/section-methods.ts";
import { sectionNotExamined } from "./page/section-not-examined.ts";
import { sectionRoom } from "./page/section-room.ts";
import { sectionTimeline, windowBar } from "./page/section-timeline.ts";
import { windowOfLog } from "./page/window-of-log.ts";
import type { RuntimeAssets } from "./runtime-assets.ts";

export interface PageOptions {
  /** default: read from the installed packages */
  readonly assets?: RuntimeAssets;
}

/** The report as one HTML file; see `htmlDocument`. */
export function renderPage(diagnosis: Diagnosis, charts: readonly Chart[], options: PageOptions = {}): string {
  return htmlDocument({
    title: `${aircraftName(diagnosis)}: what the flight log says`,
    skip: { href: "#flight", text: "To the flight and its findings" },
    body: body(diagnosis, charts),
    data: data(diagnosis, charts),
    script: PAGE_SCRIPT,
    assets: options.assets,
  });
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

/** Charts and the windows of the findings. */
function data(diagnosis: Diagnosis, charts: readonly Chart[]): object {
  const whole = windowOfLog(diagnosis);
  const findings = Object.fromEntries(
    diagnosis.findings.map((finding) => [
      finding.id,
      { name: findingName(finding), window: findingWindow(finding, whole) },
    ]),
  );
  return { whole, findings, ...packCharts(charts) };
}

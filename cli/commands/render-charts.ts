import { type Chart, renderPng, renderSpec, renderSvg, safeFileName, type Ticket } from "../../src/index.ts";
import type { Format } from "./arguments.ts";

/** Output files by their path below the output folder. */
export type Files = Map<string, string | Uint8Array>;

/** Every chart in one of the picture formats, below `charts/`; nothing for other formats. */
export async function addCharts(files: Files, charts: readonly Chart[], format: Format): Promise<void> {
  for (const chart of charts) {
    const path = `charts/${safeFileName(chart.id)}`;
    if (format === "svg") files.set(`${path}.svg`, await renderSvg(chart));
    if (format === "png") files.set(`${path}.png`, await renderPng(chart));
    if (format === "vl") files.set(`${path}.vl.json`, renderSpec(chart));
  }
}

/** The ticket's folder and its zip. */
export function addTicket(files: Files, { files: parts, zip }: Ticket): void {
  for (const [path, content] of parts) files.set(`ticket/${path}`, content);
  files.set("ticket.zip", zip);
}

import { strToU8, type Zippable, zipSync } from "fflate";
import type { Chart } from "../charts/index.ts";
import type { Diagnosis } from "../findings/diagnosis.ts";
import { renderPng } from "./render-png.ts";
import { renderSvg } from "./render-svg.ts";
import { safeFileName } from "./safe-file-name.ts";
import { ticketMarkdown } from "./ticket-markdown.ts";

/** What a maintenance ticket needs, ready to be written. */
export interface Ticket {
  /** path below the ticket's folder, with forward slashes -> content */
  readonly files: ReadonlyMap<string, string | Uint8Array>;
  /** the same files, zipped; the same bytes for the same diagnosis */
  readonly zip: Uint8Array;
}

/** A zip cannot hold dates before 1980; a fixed one keeps its bytes the same on every run. */
const ZIP_DATE = new Date(1980, 0, 1, 12);

/** The ticket bundle: Markdown, each chart as PNG of twice the size, as SVG and as specification, and the diagnosis. */
export function renderTicket(diagnosis: Diagnosis, charts: readonly Chart[]): Promise<Ticket> {
  return bundleTicket(ticketMarkdown(diagnosis, charts), { name: "diagnosis.json", content: diagnosis }, charts);
}

/** Puts a ticket's text, the numbers behind it and its charts into one bundle. */
export async function bundleTicket(
  markdown: string,
  data: { readonly name: string; readonly content: object },
  charts: readonly Chart[],
): Promise<Ticket> {
  const files = new Map<string, string | Uint8Array>();
  files.set("ticket.md", markdown);
  files.set(data.name, `${JSON.stringify(data.content, null, 2)}\n`);
  for (const chart of charts) {
    const path = `charts/${safeFileName(chart.id)}`;
    files.set(`${path}.png`, await renderPng(chart, 2));
    files.set(`${path}.svg`, await renderSvg(chart));
    files.set(`${path}.vl.json`, renderSpec(chart));
  }
  const entries: Zippable = {};
  for (const [path, content] of files) {
    entries[`ticket/${path}`] = [
      typeof content === "string" ? strToU8(content) : content,
      { mtime: ZIP_DATE, level: path.endsWith(".png") ? 0 : 6 },
    ];
  }
  return { files, zip: zipSync(entries) };
}

/** The chart's specification as a file: everything that draws it, data included. */
export function renderSpec(chart: Chart): string {
  return `${JSON.stringify(chart.spec)}\n`;
}

import { join } from "node:path";
import { openInBrowser } from "../open-in-browser.ts";
import type { Terminal } from "../terminal.ts";
import type { Format } from "./arguments.ts";

/** File or folder of each format below the output folder, for a command's own pages and data. */
export function placesOf(own: Record<"html" | "json" | "text", string>): Record<Format, string> {
  return { ...own, svg: "charts", png: "charts", vl: "charts", ticket: "ticket.zip" };
}

/** Says where a report is, and opens its page where that was asked for. */
export function tellPlaces(
  folder: string,
  places: Record<Format, string>,
  { format, open = false }: { format: readonly Format[]; open?: boolean },
  terminal: Terminal,
): void {
  const written = new Set(format.map((one) => join(folder, places[one])));
  terminal.out(`\nReport: ${[...written].join("  ")}\n`);
  if (!open) return;
  if (format.includes("html")) openInBrowser(join(folder, places.html));
  else terminal.err("--open needs html among --format; nothing was opened\n");
}

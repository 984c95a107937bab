import {
  compareFlights,
  type FlightsCompared,
  renderComparisonPage,
  renderComparisonText,
  renderComparisonTicket,
} from "../../src/index.ts";
import { progressLine } from "../progress-line.ts";
import type { Terminal } from "../terminal.ts";
import { checkWritable, writeFiles } from "../write-files.ts";
import { FORMATS, type Format, formatList, metresPerSecond, wholeNumber } from "./arguments.ts";
import { type AddCommand, EXIT, type ExitStatus } from "./command.ts";
import { placesOf, tellPlaces } from "./deliver.ts";
import { addCharts, addTicket, type Files } from "./render-charts.ts";

interface CompareArguments {
  readonly channels?: string;
  readonly aircraft?: string;
  readonly beforeChannels?: string;
  readonly beforeAircraft?: string;
  readonly next?: number;
  readonly out?: string;
  readonly format: Format[];
  readonly seed?: number;
  readonly open?: boolean;
}

export const addCompare: AddCommand = (program, terminal, finish) => {
  program
    .command("compare")
    .summary("say what a change did: the same mission flown before and after it")
    .description(
      "Compares two flights of one mission, before and after a change: power, steadiness and room at each speed, with intervals, and what may be said of the next speed step.",
    )
    .argument("<before>", "flight log before the change: .csv .tsv (also .gz), .parquet or .ndjson")
    .argument("<after>", "flight log after it")
    .option("--channels <file>", "channel map; without one, columns are matched by the words in their names")
    .option("--aircraft <file>", "aircraft file: motors, command range, thrust")
    .option("--before-channels <file>", "channel map of the flight before (default: the same)")
    .option("--before-aircraft <file>", "aircraft file of the flight before (default: the same)")
    .option("--next <m/s>", "speed of the next step (default: the last increment once more)", metresPerSecond)
    .option("--out <dir>", "folder for the report (default: AFTER-fettle-compare beside the log)")
    .option("--format <list>", `what to write, any of ${FORMATS.join(" ")}`, formatList, ["html", "json"] as Format[])
    .option("--seed <n>", "seed of everything that draws random numbers (default: 1)", wholeNumber)
    .option("--open", "open the report in the browser when it is done")
    .addHelpText(
      "after",
      `
Examples:
  fettle compare before.csv after.csv
  fettle compare before.csv after.csv --channels survey.channels.yaml --aircraft heron.aircraft.yaml
  fettle compare monday.csv friday.csv --aircraft heron.aircraft.yaml --next 16 --format html,ticket`,
    )
    .action(async (before: string, after: string, options: CompareArguments) =>
      finish(await run(before, after, options, terminal)),
    );
};

async function run(before: string, after: string, options: CompareArguments, terminal: Terminal): Promise<ExitStatus> {
  const folder = options.out ?? `${after}-fettle-compare`;
  await checkWritable(folder);
  const progress = progressLine(terminal, "reading");
  const made = await compareFlights(before, after, { ...options, onProgress: progress.update }).finally(progress.clear);
  await writeFiles(folder, await renderAll(made, options.format));
  terminal.out(renderComparisonText(made.comparison, { width: terminal.width, colour: terminal.colour }));
  tellPlaces(folder, PLACE_OF, options, terminal);
  return EXIT.done;
}

const PLACE_OF = placesOf({ html: "comparison.html", json: "comparison.json", text: "comparison.txt" });

/** Everything is rendered before anything is written, so that a failure leaves nothing behind. */
async function renderAll({ comparison, charts }: FlightsCompared, formats: readonly Format[]): Promise<Files> {
  const files: Files = new Map();
  for (const format of formats) {
    if (format === "html") files.set(PLACE_OF.html, renderComparisonPage(comparison, charts));
    if (format === "json") files.set(PLACE_OF.json, `${JSON.stringify(comparison, null, 2)}\n`);
    if (format === "text") files.set(PLACE_OF.text, renderComparisonText(comparison, { full: true }));
    if (format === "ticket") addTicket(files, await renderComparisonTicket(comparison, charts));
    await addCharts(files, charts, format);
  }
  return files;
}

import {
  ALERT_LEVELS,
  type AlertLevel,
  type Diagnosed,
  diagnose,
  renderPage,
  renderReportText,
  renderText,
  renderTicket,
} from "../../src/index.ts";
import { progressLine } from "../progress-line.ts";
import type { Terminal } from "../terminal.ts";
import { checkWritable, writeFiles } from "../write-files.ts";
import { alertLevel, FORMATS, type Format, formatList, perHour, seconds, wholeNumber } from "./arguments.ts";
import { type AddCommand, EXIT, type ExitStatus } from "./command.ts";
import { placesOf, tellPlaces } from "./deliver.ts";
import { addCharts, addTicket, type Files } from "./render-charts.ts";

interface DiagnoseArguments {
  readonly channels?: string;
  readonly aircraft?: string;
  readonly baseline?: string;
  readonly baselineChannels?: string;
  readonly baselineAircraft?: string;
  readonly from?: number;
  readonly to?: number;
  readonly out?: string;
  readonly format: Format[];
  readonly failOn?: AlertLevel;
  readonly falseAlarms?: number;
  readonly seed?: number;
  readonly open?: boolean;
}

export const addDiagnose: AddCommand = (program, terminal, finish) => {
  program
    .command("diagnose")
    .summary("read a log and say what happened in the flight")
    .description("Reads a log and says what happened in the flight: a summary here, and a report to read and send on.")
    .argument("<log>", "flight log: .csv .tsv (also .gz), .parquet or .ndjson")
    .option("--channels <file>", "channel map; without one, columns are matched by the words in their names")
    .option("--aircraft <file>", "aircraft file: motors, command range, thrust")
    .option("--baseline <log>", "log of a good flight of the same aircraft, to compare with")
    .option("--baseline-channels <file>", "channel map of the baseline (default: the same as for the log)")
    .option("--baseline-aircraft <file>", "aircraft file of the baseline (default: the same as for the log)")
    .option("--from <s>", "leave out what lies before this time of the log", seconds)
    .option("--to <s>", "leave out what lies after it", seconds)
    .option("--out <dir>", "folder for the report (default: LOG-fettle beside the log)")
    .option("--format <list>", `what to write, any of ${FORMATS.join(" ")}`, formatList, ["html", "json"] as Format[])
    .option(
      "--fail-on <level>",
      `leave with status 1 on a finding at this level or above: ${ALERT_LEVELS.join(" ")}`,
      alertLevel,
    )
    .option("--false-alarms <n>", "false oscillations an hour of flight that you accept (default: 0.5)", perHour)
    .option("--seed <n>", "seed of everything that draws random numbers (default: 1)", wholeNumber)
    .option("--open", "open the report in the browser when it is done")
    .addHelpText(
      "after",
      `
Examples:
  fettle diagnose flight.csv
  fettle diagnose flight.csv --channels survey.channels.yaml --aircraft heron.aircraft.yaml
  fettle diagnose after.csv --aircraft heron.aircraft.yaml --baseline before.csv
  fettle diagnose flight.parquet --from 120 --to 300 --format html,json,ticket --fail-on warning`,
    )
    .action(async (log: string, options: DiagnoseArguments) => finish(await run(log, options, terminal)));
};

async function run(log: string, options: DiagnoseArguments, terminal: Terminal): Promise<ExitStatus> {
  const folder = options.out ?? `${log}-fettle`;
  await checkWritable(folder);
  const progress = progressLine(terminal, "reading");
  const made = await diagnose(log, { ...options, onProgress: progress.update }).finally(progress.clear);
  await writeFiles(folder, await renderAll(made, options.format));
  const { diagnosis } = made;
  terminal.out(renderText(diagnosis, { width: terminal.width, height: terminal.height - 2, colour: terminal.colour }));
  tellPlaces(folder, PLACE_OF, options, terminal);
  const { failOn } = options;
  const isFound = failOn !== undefined && diagnosis.findings.some((finding) => reaches(finding.severity, failOn));
  return isFound ? EXIT.found : EXIT.done;
}

const PLACE_OF = placesOf({ html: "report.html", json: "diagnosis.json", text: "report.txt" });

const reaches = (level: AlertLevel, least: AlertLevel) => ALERT_LEVELS.indexOf(level) >= ALERT_LEVELS.indexOf(least);

/** Everything is rendered before anything is written, so that a failure leaves nothing behind. */
async function renderAll({ diagnosis, charts }: Diagnosed, formats: readonly Format[]) {
  const files: Files = new Map();
  for (const format of formats) {
    if (format === "html") files.set(PLACE_OF.html, renderPage(diagnosis, charts));
    if (format === "json") files.set(PLACE_OF.json, `${JSON.stringify(diagnosis, null, 2)}\n`);
    if (format === "text") files.set(PLACE_OF.text, renderReportText(diagnosis));
    if (format === "ticket") addTicket(files, await renderTicket(diagnosis, charts));
    await addCharts(files, charts, format);
  }
  return files;
}

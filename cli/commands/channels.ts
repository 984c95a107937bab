import { basename, dirname } from "node:path";
import {
  type ChannelsReport,
  type ColumnReport,
  describeChannels,
  formatChannelMap,
  plainText,
} from "../../src/index.ts";
import { progressLine } from "../progress-line.ts";
import { writeFiles } from "../write-files.ts";
import { type AddCommand, EXIT } from "./command.ts";

interface ChannelsArguments {
  readonly channels?: string;
  readonly write?: string;
}

export const addChannels: AddCommand = (program, terminal, finish) => {
  program
    .command("channels")
    .summary("show a log's columns and what they were taken for")
    .description("Shows a log's columns with their rate, range and gaps, and the channel that each was taken for.")
    .argument("<log>", "flight log: .csv .tsv (also .gz), .parquet or .ndjson")
    .option("--channels <file>", "channel map to check; without one, columns are matched by the words in their names")
    .option("--write <file>", "write a channel map to edit")
    .addHelpText(
      "after",
      "\nExamples:\n  fettle channels flight.csv\n  fettle channels flight.csv --write survey.channels.yaml",
    )
    .action(async (log: string, { channels, write }: ChannelsArguments) => {
      const progress = progressLine(terminal, "reading");
      const options = { channels, onProgress: progress.update };
      const report = await describeChannels(log, options).finally(progress.clear);
      terminal.out(table(report));
      terminal.out(closing(report));
      if (write !== undefined) {
        const unmatched = report.columns.filter(isUnmatched).map(({ name }) => name);
        const map = formatChannelMap(report.log.mapping, { unmatched, log: basename(log) });
        await writeFiles(dirname(write), new Map([[basename(write), map]]));
        terminal.out(`\nMap to edit: ${write}\n`);
      }
      finish(EXIT.done);
    });
};

const isUnmatched = ({ isTime, matches }: ColumnReport) => !isTime && matches.length === 0;

/** characters of a column's name that are shown */
const LONGEST_NAME = 40;

const HEADINGS = ["column", "channel", "unit", "sure", "rate", "lowest", "highest", "gaps", "longest"];

function table({ columns, log }: ChannelsReport): string {
  const rows = columns.flatMap((column) => rowsOf(column, log.mapping.time.unit));
  const cells = [HEADINGS, ...rows.map(([name, ...rest]) => [plainText(name!, LONGEST_NAME), ...rest])];
  const widths = HEADINGS.map((_, i) => Math.max(...cells.map((row) => row[i]!.length)));
  return `${cells
    .map((row) =>
      row
        .map((cell, i) => (i < 3 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
        .join("  ")
        .trimEnd(),
    )
    .join("\n")}\n`;
}

function rowsOf(column: ColumnReport, timeUnit: string): string[][] {
  const { name, isTime, matches, sampling, min, max } = column;
  const range = [numeral(min), numeral(max)];
  if (isTime) return [[name, "(time)", timeUnit, "", "", ...range, "", ""]];
  if (matches.length === 0) return [[name, "-", "", "", "", ...range, "", ""]];
  return matches.map(({ channel, unit, confidence }) => [
    name,
    channel,
    unit,
    `${Math.round(confidence * 100)} %`,
    sampling === null ? "" : `${numeral(sampling.rate)} Hz`,
    ...range,
    sampling === null ? "" : String(sampling.gaps.length),
    sampling === null ? "" : `${numeral(sampling.longestGap)} s`,
  ]);
}

const numeral = (value: number | null) => (value === null ? "" : String(Number(value.toPrecision(4))));

function closing({ log, columns }: ChannelsReport): string {
  const { mapping, clock } = log;
  const matched = columns.length - columns.filter(isUnmatched).length;
  const lines = [
    "",
    matched === 0
      ? `${log.rows} rows; no column is named for what it is. Name the columns in a channel map: --write makes one to fill in.`
      : `${log.rows} rows over ${numeral(log.duration)} s at ${numeral(clock.rate)} Hz; ${matched} of ${columns.length} columns used.`,
    ...mapping.questions.map(({ text }) => `To confirm: ${plainText(text, 400)}`),
  ];
  return `${lines.join("\n")}\n`;
}

import type { Comparison } from "../../findings/comparison/index.ts";
import { capital, durationWords, plainText } from "../../words/index.ts";
import { aircraftName } from "../page/section-first.ts";
import { ink, wrap } from "../terminal.ts";
import { shortPath } from "./section-first.ts";
import { stepLines } from "./steps-table.ts";

export interface ComparisonTextOptions {
  /** characters in a line, default 78 */
  readonly width?: number;
  /** default false */
  readonly colour?: boolean;
  /** without it, the next step's reasons, cautions and methods are left out: a screen instead of a report */
  readonly full?: boolean;
}

/** The comparison in plain text: what to read first, the table of speeds, and in full what stands behind it. */
export function renderComparisonText(comparison: Comparison, options: ComparisonTextOptions = {}): string {
  const { width = 78, colour = false, full = false } = options;
  const pen = ink(colour);
  const { before, after, statements, leftOut } = comparison;
  const flight = ({ log }: Comparison["before"]) =>
    `${plainText(shortPath(log.file), 60)}, ${durationWords(log.duration)}`;
  return `${[
    ...wrap(`${aircraftName(comparison)}: ${flight(before)} before, ${flight(after)} after`, width).map(pen.strong),
    "",
    ...statements.flatMap(({ level, text }) => hanging(text, width).map((line) => pen.level(level, line))),
    "",
    ...stepLines(comparison).flatMap((line) => stepText(line, width)),
    ...(leftOut.length === 0
      ? []
      : ["", ...wrap(`Left out: ${leftOut.map(({ subject }) => subject).join(", ")}.`, width).map(pen.faint)]),
    ...(full ? inFull(comparison, width) : []),
  ].join("\n")}\n`;
}

function stepText(line: ReturnType<typeof stepLines>[number], width: number): string[] {
  const power = line.power === "–" ? line.powerChange : `${line.power}, ${line.powerChange}`;
  const axes = line.axes.filter(({ words }) => words !== "–").map(({ axis, words }) => `${axis}: ${words}`);
  const head = `${line.name}${line.legs === "" || line.legs === "–" ? "" : ` (legs ${line.legs})`}`;
  const energy = line.energy === "–" ? "" : `; ${line.energy} Wh/km`;
  return [
    ...wrap(`${head}: ${power}${energy}`, width),
    ...axes.flatMap((text) => wrap(text, width - 4).map((part, i) => `${i === 0 ? "  " : "    "}${part}`)),
    ...(line.room.words === "–" ? [] : wrap(`room ${line.room.words}`, width - 4).map((part) => `  ${part}`)),
  ];
}

function inFull({ nextStep, leftOut, methods, cautions, run }: Comparison, width: number): string[] {
  const section = (title: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : ["", title, "-".repeat(title.length), ...lines.flatMap((text) => hanging(text, width))];
  return [
    ...(nextStep === null
      ? []
      : [
          ...section("The next speed step", [nextStep.statement, ...nextStep.reasons]),
          ...section("What would be seen first if it goes wrong", nextStep.firstSeen),
          ...section("Before anyone goes faster", nextStep.cautions),
          ...section("What was not examined", nextStep.notExamined),
        ]),
    ...section(
      "Left out",
      leftOut.map(({ subject, why }) => `${subject}: ${why}.`),
    ),
    ...section(
      "How the numbers were computed",
      methods.map(({ title, text, sources }) => `${title}: ${text} Sources: ${sources.join("; ")}.`),
    ),
    ...section("Before anyone acts on this", cautions),
    "",
    `Fettle ${plainText(run.version, 40)}, ${plainText(run.at, 40)}`,
  ];
}

function hanging(text: string, width: number): string[] {
  return wrap(capital(plainText(text, 2000)), width - 2).map((line, i) => `${i === 0 ? "- " : "  "}${line}`);
}

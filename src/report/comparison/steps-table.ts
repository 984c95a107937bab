import {
  type Comparison,
  type ComparisonRow,
  changeWords,
  levelWords,
  rangeWords,
} from "../../findings/comparison/index.ts";
import { capital, numberWords } from "../../words/index.ts";

/** One line of the table that leads the report: a speed step (or hover, or all speeds) in a few words a column. */
export interface StepLine {
  readonly name: string;
  readonly legs: string;
  readonly power: string;
  readonly powerChange: string;
  readonly energy: string;
  readonly axes: readonly { readonly axis: string; readonly words: string; readonly verdict: string }[];
  readonly room: { readonly words: string; readonly verdict: string };
}

/** W and m/s to Wh/km */
const wattHoursPerKilometre = (watts: number, speed: number) => watts / speed / 3.6;

/** The lines of the leading table, hover first, then by rising speed, then all speeds. */
export function stepLines(comparison: Comparison): StepLine[] {
  const { conditions, tables } = comparison;
  const rows = (table: string, condition: string) =>
    (tables.find(({ id }) => id === table)?.rows ?? []).filter((row) => row.condition === condition);
  const hasAll = tables.some(({ rows: all }) => all.some(({ condition }) => condition === "all-speeds"));
  const places = [
    ...conditions.map(({ id, name, legs, speed, kind }) => ({
      id,
      name: capital(name),
      legs: kind === "cruise" ? `${legs.before.length} / ${legs.after.length}` : "–",
      speed:
        kind === "cruise" && speed.before !== null && speed.after !== null ? (speed.before + speed.after) / 2 : null,
    })),
    ...(hasAll ? [{ id: "all-speeds", name: "All speeds", legs: "", speed: null }] : []),
  ];
  return places.map(({ id, name, legs, speed }) => {
    const [power] = rows("power", id);
    const isLevel = power?.before !== undefined && power.after !== undefined;
    return {
      name,
      legs,
      power: isLevel ? `${levelWords(power, power.before!.value)} → ${levelWords(power, power.after!.value)}` : "–",
      powerChange: power === undefined ? "–" : verdictCell(power),
      energy:
        isLevel && speed !== null && power.quantity === "power"
          ? `${numberWords(wattHoursPerKilometre(power.before!.value, speed), 3)} → ${numberWords(wattHoursPerKilometre(power.after!.value, speed), 3)}`
          : "–",
      axes: (["roll", "pitch", "yaw"] as const).map((axis) => ({ axis, ...axisCell(rows(axis, id)) })),
      room: roomCell(rows("room", id)),
    };
  });
}

function verdictCell(row: ComparisonRow): string {
  if (row.difference === undefined) return row.word;
  return `${changeWords(row)} (${rangeWords(row)}): ${row.word}`;
}

/** The row of an axis that says most: a sure change before a likely one, the surest first. */
function axisCell(rows: readonly ComparisonRow[]): { words: string; verdict: string } {
  if (rows.length === 0) return { words: "–", verdict: "" };
  const row = surest(rows);
  if (row === undefined) return { words: "not enough data", verdict: "not-enough-data" };
  if (row.verdict === "no-difference") return { words: "no difference shown", verdict: row.verdict };
  return { words: `${row.word}: ${axisPhrase(row)} ${changeWords(row)}`, verdict: row.verdict };
}

/** A few words for a narrow column; the full table has the rest. */
function axisPhrase({ quantity, loop }: ComparisonRow): string {
  if (quantity === "swing") return "own swing";
  if (quantity === "damping") return "damping";
  return `${loop === "attitude" ? "angle" : "rate"} error`;
}

function roomCell(rows: readonly ComparisonRow[]): { words: string; verdict: string } {
  const ends = rows.filter(({ quantity, difference }) => quantity.startsWith("headroom") && difference !== undefined);
  if (ends.length === 0) return { words: rows.length === 0 ? "–" : "not enough data", verdict: "" };
  const row = surest(ends)!;
  const words = ends.map((end) => {
    const side = end.quantity === "headroom-above" ? "above" : "below";
    if (end.before === undefined || end.after === undefined) return `${side}: ${changeWords(end)}`;
    return `${side} ${levelWords(end, end.before.value)} → ${levelWords(end, end.after.value)}`;
  });
  return {
    words: `${words.join(", ")}: ${row.verdict === "no-difference" ? "no difference shown" : row.word}`,
    verdict: row.verdict,
  };
}

function surest(rows: readonly ComparisonRow[]): ComparisonRow | undefined {
  const rank = ({ verdict }: ComparisonRow) =>
    verdict === "no-difference" ? 2 : verdict.startsWith("perhaps") ? 1 : 0;
  // Sizes are easier to picture than damping.
  const size = ({ quantity }: ComparisonRow) => (quantity === "damping" ? 1 : 0);
  return rows
    .filter(({ difference }) => difference !== undefined)
    .toSorted((a, b) => rank(a) - rank(b) || size(a) - size(b) || (a.p ?? 1) - (b.p ?? 1))[0];
}

import { capital, countWords, numberWords, secondsWords } from "../../words/index.ts";
import type { AlertLevel } from "../finding.ts";
import type { Comparison, ComparisonRow } from "./comparison.ts";
import { differenceWords, levelWords } from "./difference-words.ts";
import { quantityPhrase } from "./quantity-words.ts";

type Statement = Comparison["statements"][number];
type Told = Pick<Comparison, "tables" | "conditions" | "nextStep" | "before" | "after" | "mission" | "leftOut">;

/** What to read first: the next step, then power, steadiness and room, each in a sentence with its interval. */
export function statementsOf(told: Told): Statement[] {
  const name = conditionNames(told);
  return [
    ...nextStepStatement(told),
    ...powerStatements(told),
    ...(["roll", "pitch", "yaw"] as const).flatMap((axis) => axisStatement(told, axis, name)),
    ...roomStatement(told, name),
    ...motorsStatement(told, name),
  ];
}

function nextStepStatement({ nextStep }: Told): Statement[] {
  if (nextStep === null) return [];
  const level: Record<typeof nextStep.verdict, AlertLevel> = {
    "evidence-against": "warning",
    "not-enough-data": "caution",
    "no-evidence-here": "note",
  };
  const why = nextStep.reasons.length === 0 ? "" : ` ${nextStep.reasons[0]}`;
  return [{ level: level[nextStep.verdict], topic: "next-step", text: `${nextStep.statement}${why}` }];
}

function powerStatements({ tables, mission }: Told): Statement[] {
  const rows = rowsOf(tables, "power").filter(isCompared);
  if (rows.length === 0) return [{ level: "note", topic: "power", text: "Power could not be compared." }];
  const [row] = rows.toSorted((a, b) => rank(a) - rank(b)) as [ComparisonRow];
  const subject = row.quantity === "power" ? "Power" : `${row.name}:`;
  const where =
    row.condition === "all-speeds"
      ? "over all speeds flown"
      : row.condition === "hover"
        ? "in hover"
        : "in steady flight";
  const text = isShown(row)
    ? `${subject} is ${differenceWords(row)} ${where}.`
    : `${subject} ${where} shows no difference that this data can show: ${differenceWords(row)}; a change of ${detectableWords(row)} would have been seen four times out of five.`;
  const whole =
    mission?.difference == null
      ? ""
      : ` Over the whole mission, turns in, it is ${differenceWords({ quantity: "power", unit: "W", scale: "ratio", difference: mission.difference })}.`;
  return [{ level: levelOf(row), topic: "power", text: text + whole }];
}

/** The row that speaks for the whole flight: all speeds, else the only condition. */
const rank = ({ condition }: ComparisonRow) => (condition === "all-speeds" ? 0 : condition === "hover" ? 2 : 1);

function axisStatement(told: Told, axis: string, name: (id: string) => string): Statement[] {
  const rows = rowsOf(told.tables, axis).filter(isCompared);
  if (rows.length === 0) return [];
  const shown = rows.filter(isShown);
  const perhaps = rows.filter(({ verdict }) => verdict.startsWith("perhaps"));
  const strongest = strongestOf(shown) ?? strongestOf(perhaps);
  const seen = oscillationWords(told, axis);
  const subject = seen.first === "" ? capital(axis) : ` Averaged over legs, ${axis}`;
  if (strongest === undefined) {
    const text = `${seen.first}${subject} shows no difference in steadiness that this data can show.${seen.last}`;
    return [{ level: seen.level ?? "note", topic: axis, text }];
  }
  const isWorse = strongest.verdict.endsWith("worse");
  const sure = strongest.verdict.startsWith("perhaps") ? "is perhaps" : "is";
  const levels =
    strongest.before === undefined || strongest.after === undefined
      ? ""
      : `, ${levelWords(strongest, strongest.before.value)} before and ${levelWords(strongest, strongest.after.value)} after`;
  const doubt = strongest.verdict.startsWith("perhaps")
    ? " Too few legs, too unlike each other, to call it proven among so many comparisons."
    : "";
  return [
    {
      level: seen.level ?? (shown.length > 0 ? (isWorse ? "caution" : "note") : "advisory"),
      topic: axis,
      text: `${seen.first}${subject} ${sure} ${isWorse ? "shakier" : "steadier"} ${name(strongest.condition)}: ${phraseOf(strongest)} is ${differenceWords(strongest)}${levels}.${doubt} ${isWorse ? "A gustier day" : "A calmer day"} does the same.${others(shown, strongest)}${seen.last}`,
    },
  ];
}

/** An oscillation that only one flight's own diagnosis found: it lasts seconds, and the mean of a leg dilutes it. */
function oscillationWords(
  { before, after }: Told,
  axis: string,
): { readonly level?: AlertLevel; readonly first: string; readonly last: string } {
  const found = ({ findings }: Comparison["before"]) =>
    findings.find((finding) => finding.kind === "oscillation" && finding.axis === axis);
  const [one, other] = [found(before), found(after)];
  if (other !== undefined && one === undefined) {
    return {
      level: other.severity,
      first: `${capital(axis)} oscillated in the flight after only (${other.severity}, at ${secondsWords(other.start)}; see its report).`,
      last: "",
    };
  }
  if (one !== undefined && other === undefined) {
    return { first: "", last: ` Only the flight before had an oscillation that its own diagnosis found.` };
  }
  return { first: "", last: "" };
}

function others(shown: readonly ComparisonRow[], told: ComparisonRow): string {
  const rest = shown.filter((row) => row !== told);
  if (rest.length === 0) return "";
  return ` ${countWords(rest.length, "more number of this axis differs", "more numbers of this axis differ")} too; its table has them.`;
}

function roomStatement({ tables }: Told, name: (id: string) => string): Statement[] {
  const rows = rowsOf(tables, "room").filter(isCompared);
  if (rows.length === 0) return [];
  // What is left decides, not how sure the change is: the leg with the least room speaks for all.
  const strongest = rows
    .filter((row) => isShown(row) && row.after !== undefined && row.quantity.startsWith("headroom"))
    .toSorted((a, b) => a.after!.value - b.after!.value)[0];
  if (strongest === undefined) {
    const others = rows.filter(isShown).length;
    const text =
      others === 0
        ? "The room left to the motors shows no difference that this data can show."
        : `The command range left shows no difference that this data can show; ${countWords(others, "other number of room is", "other numbers of room are")} different.`;
    return [{ level: "note", topic: "room", text }];
  }
  const isWorse = strongest.verdict === "worse";
  const levels = `${levelWords(strongest, strongest.before!.value)} before, ${levelWords(strongest, strongest.after!.value)} after`;
  return [
    {
      level: isWorse ? "caution" : "note",
      topic: "room",
      text: `The motors have ${isWorse ? "less" : "more"} room, least of it ${name(strongest.condition)}: ${phraseOf(strongest)} is ${levels}, ${differenceWords(strongest)}.`,
    },
  ];
}

function motorsStatement({ tables }: Told, name: (id: string) => string): Statement[] {
  const rows = rowsOf(tables, "motors").filter((row) => isCompared(row) && isShown(row) && row.motor !== undefined);
  const strongest = rows.toSorted((a, b) => Math.abs(b.difference!.value) - Math.abs(a.difference!.value))[0];
  if (strongest === undefined) return [];
  return [
    {
      level: "advisory",
      topic: "motors",
      text: `${strongest.name}, changed most ${name(strongest.condition)}: ${differenceWords(strongest)}.`,
    },
  ];
}

/** The surest row of those that a reader can picture: sizes before damping. */
function strongestOf(rows: readonly ComparisonRow[]): ComparisonRow | undefined {
  const sizes = rows.filter(({ quantity }) => quantity !== "damping");
  return (sizes.length > 0 ? sizes : rows).toSorted((a, b) => (a.p ?? 1) - (b.p ?? 1))[0];
}

const phraseOf = ({ quantity, loop }: ComparisonRow) => quantityPhrase({ key: quantity, loop });
const rowsOf = (tables: Told["tables"], id: string) => tables.find((table) => table.id === id)?.rows ?? [];
const isCompared = ({ difference }: ComparisonRow) => difference !== undefined;
const isShown = ({ verdict }: ComparisonRow) => ["better", "worse", "changed"].includes(verdict);

function levelOf({ verdict }: ComparisonRow): AlertLevel {
  return verdict === "worse" ? "advisory" : "note";
}

/** The smallest detectable difference: `5.3 %`. */
export function detectableWords({ detectable, scale, quantity, unit }: ComparisonRow): string {
  const value = detectable ?? Number.NaN;
  return scale === "ratio" ? `${numberWords(100 * value, 2)} %` : levelWords({ quantity, unit }, value);
}

/** `at 14 m/s`, `in hover`, `over all speeds`. */
export function conditionNames({ conditions }: Pick<Told, "conditions">): (id: string) => string {
  return (id) => {
    if (id === "all-speeds") return "over all speeds";
    const condition = conditions.find((one) => one.id === id);
    return condition?.kind === "cruise"
      ? `at ${condition.name}`
      : condition?.kind === "hover"
        ? "in hover"
        : "in flight";
  };
}

import { benjaminiHochberg } from "../signal/index.ts";
import type { ComparedRow } from "./compare-quantity.ts";
import { TABLES, type TableName } from "./quantity.ts";

/**
 * What the data says of one row. `changed`: different, where neither way is better. `perhaps-...`: its own interval
 * leaves out no change, but among so many comparisons chance does as much.
 */
export type Verdict =
  | "better"
  | "worse"
  | "changed"
  | "perhaps-better"
  | "perhaps-worse"
  | "perhaps-changed"
  | "no-difference"
  | "not-enough-data";

export type JudgedRow = ComparedRow & {
  readonly verdict: Verdict;
  /** p value corrected for the comparisons of its table; null where there is none */
  readonly adjusted: number | null;
};

/** Chance of a false alarm that a table is held to when nothing changed. */
const LEVEL = 0.05;

/**
 * Judges the rows of every table, each table corrected for its many comparisons: of the differences it names, no more
 * than one in twenty is expected to be chance; and where nothing changed at all, no more than one table in twenty
 * names any.
 *
 * @see Benjamini and Hochberg 1995, J. R. Stat. Soc. B 57(1):289-300
 */
export function judgeTables(rows: readonly ComparedRow[]): Record<TableName, JudgedRow[]> {
  return Object.fromEntries(
    TABLES.map((table) => [table, judgeTable(rows.filter(({ quantity }) => quantity.table === table))]),
  ) as Record<TableName, JudgedRow[]>;
}

function judgeTable(rows: readonly ComparedRow[]): JudgedRow[] {
  const compared = rows.flatMap((row) => (row.kind === "compared" ? [row] : []));
  const adjusted = benjaminiHochberg(Float64Array.from(compared, ({ pValue }) => pValue));
  return rows.map((row): JudgedRow => {
    if (row.kind !== "compared") return { ...row, verdict: "not-enough-data", adjusted: null };
    const p = adjusted[compared.indexOf(row)]!;
    const way = wayOf(row);
    return { ...row, adjusted: p, verdict: p < LEVEL ? way : row.pValue < LEVEL ? `perhaps-${way}` : "no-difference" };
  });
}

function wayOf({ quantity, difference }: Extract<ComparedRow, { kind: "compared" }>): "better" | "worse" | "changed" {
  if (quantity.better === null) return "changed";
  const isLess = difference.value < 0;
  return isLess === (quantity.better === "less") ? "better" : "worse";
}

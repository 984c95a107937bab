import { displayUnit, numberWords, percentWords, withDecimals } from "../../words/index.ts";
import type { ComparisonRow } from "./comparison.ts";

type Differing = Pick<ComparisonRow, "scale" | "unit" | "difference" | "quantity">;

/** Ratios from here on are told as factors: twice as large reads better than 100 % more. */
const FACTOR = 0.8;

/** Shares of a whole, told in percent of that whole. */
const isShare = ({ quantity, unit }: Pick<Differing, "quantity" | "unit">) =>
  unit === "1" && !["damping", "activity"].includes(quantity);

/** `17 % more (between +13 and +21 %)`, `2.1 times as large (between 1.4 and 3.1 times)`, `12 points less (...)`. */
export function differenceWords(row: Differing): string {
  const { difference } = row;
  if (difference === undefined) return "unknown";
  return `${changeWords(row)} (${rangeWords(row)})`;
}

/** The change alone: `17 % more`. */
export function changeWords(row: Differing): string {
  const value = row.difference!.value;
  if (row.scale === "ratio") {
    if (value > FACTOR) return `${numberWords(1 + value, 2)} times as large`;
    return `${percent(Math.abs(value))} % ${value < 0 ? "less" : "more"}`;
  }
  return `${sizeWords(row, Math.abs(value))} ${value < 0 ? "less" : "more"}`;
}

/** The interval alone, signed: `+13 to +21 %`. */
export function rangeWords(row: Differing): string {
  const { value, low, high } = row.difference!;
  if (row.scale === "ratio") {
    if (value > FACTOR) return `between ${numberWords(1 + low, 2)} and ${numberWords(1 + high, 2)} times`;
    return `between ${signed(low)} and ${signed(high)} %`;
  }
  const sign = (end: number) => (end > 0 ? "+" : "");
  return `between ${sign(low)}${sizeWords(row, low, false)} and ${sign(high)}${sizeWords(row, high)}`;
}

/** Differences of shares are points of percent, so that nobody takes them for a change in proportion. */
function sizeWords(row: Pick<Differing, "quantity" | "unit">, value: number, withUnit = true): string {
  if (isShare(row)) return withUnit ? `${percent(value)} points` : percent(value);
  const { label, factor } = displayUnit(row.unit);
  const text = numberWords(value * factor, 2);
  return withUnit && label !== "" ? `${text} ${label}` : text;
}

const percent = (share: number) => withDecimals(100 * share, Math.abs(share) >= 0.1 ? 0 : 1);
const signed = (share: number) => `${share > 0 ? "+" : ""}${percent(share)}`;

/** A level in the unit that people read: `1870 W`, `0.23 deg`, `36 %`. */
export function levelWords(row: Pick<Differing, "quantity" | "unit">, value: number): string {
  if (isShare(row)) return percentWords(value);
  const { label, factor } = displayUnit(row.unit);
  return `${numberWords(value * factor, row.quantity === "power" ? 4 : 3)}${label === "" ? "" : ` ${label}`}`;
}

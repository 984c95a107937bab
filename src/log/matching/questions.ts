import type { ResolvedChannel, ResolvedMap, ResolvedTime } from "../channels/resolve-map.ts";
import { conversionOf, type Dimension } from "../channels/units.ts";
import type { Question } from "../log.ts";
import type { Columns } from "../table/read-columns.ts";
import { shorten } from "../table/table-error.ts";
import { doubtUnit } from "./doubt-unit.ts";
import type { ChannelCandidate } from "./match-columns.ts";
import { wordsOf } from "./words-of.ts";

/** A unit that was guessed from the size of the numbers. */
export interface UnitClaim {
  readonly channel: string;
  readonly dimension: Dimension;
  readonly column: string;
  readonly unit: string;
  readonly scale: number;
  /** largest absolute value of the column */
  readonly reach: number;
  /** unit that the name states, where the numbers speak against it */
  readonly stated: string | null;
  readonly doubt: string | null;
}

/** One question for all columns of a kind that were given the same unit, and one for each name that is disbelieved. */
export function unitQuestions(claims: readonly UnitClaim[]): Question[] {
  const groups = new Map<string, UnitClaim[]>();
  for (const claim of claims) {
    const key = [claim.dimension, claim.unit, claim.scale, claim.stated].join("|");
    groups.set(key, [...(groups.get(key) ?? []), claim]);
  }
  return [...groups.values()].map((group) => {
    const { channel, column, unit, scale, stated, doubt } = group[0]!;
    const reach = Number(Math.max(...group.map((claim) => claim.reach)).toPrecision(4));
    const names = listed(group.map((claim) => claim.column));
    const verb = group.length === 1 ? "Is" : "Are";
    const it = group.length === 1 ? "it reaches" : "they reach";
    const taken = scale === 1 ? `in ${spoken(unit)}` : `${spoken(unit)} when multiplied by ${scale.toExponential(4)}`;
    const text =
      doubt === null
        ? `${verb} ${names} ${taken} (${it} ${reach})?`
        : `${verb} ${names} ${taken} and not in ${stated} as named (${it} ${reach}, which would be ${doubt})?`;
    return { channel, column, text };
  });
}

const spoken = (unit: string) => (unit === "1" ? "plain numbers (unit 1)" : unit);

const SENSE = { roll: "right side down", pitch: "nose up", yaw: "nose right" } as const;

/** Words cannot tell which way an axis counts. */
export function axisQuestions(channels: readonly ResolvedChannel[]): Question[] {
  const axes = Object.keys(SENSE) as (keyof typeof SENSE)[];
  return axes.flatMap((axis) => {
    const of = channels.filter(({ kind }) => kind.name.split(".")[1] === axis);
    const first = of[0];
    if (first === undefined) return [];
    const names = listed(of.map(({ source }) => source.column));
    const text = `${of.length === 1 ? "Does" : "Do"} ${names} count ${SENSE[axis]} as positive?`;
    return [{ channel: first.kind.name, column: first.source.column, text }];
  });
}

/** Nor can they tell which motor is which. */
export function motorQuestions(channels: readonly ResolvedChannel[], isFromZero: boolean): Question[] {
  const motors = channels.filter(({ kind }) => kind.dimension === "command");
  const first = motors[0];
  if (first === undefined) return [];
  const counted = isFromZero ? " once counted from 1 instead of 0" : "";
  if (motors.length === 1 && !isFromZero) return [];
  const text = `Are the ${motors.length} motors in the order of the aircraft file${counted}?`;
  return [{ channel: first.kind.name, column: first.source.column, text }];
}

/** Several columns claim one channel. */
export function rivalQuestion(winner: ChannelCandidate, others: readonly ChannelCandidate[]): Question {
  const { kind, column } = winner;
  const text = `Is ${kind.meaning} in "${shorten(column)}" and not in ${listed(
    others.map((other) => other.column),
    "or",
  )}?`;
  return { channel: kind.name, column, text };
}

function listed(names: readonly string[], conjunction = "and"): string {
  const shown = names.slice(0, names.length > 4 ? 3 : 4).map((name) => `"${shorten(name, 30)}"`);
  if (names.length > shown.length) shown.push(`${names.length - shown.length} more`);
  return shown.length === 1 ? shown[0]! : `${shown.slice(0, -1).join(", ")} ${conjunction} ${shown.at(-1)}`;
}

/** Units of the channel map that the columns' own names or numbers speak against; the map is followed all the same. */
export function mapQuestions({ time, channels }: Pick<ResolvedMap, "time" | "channels">, columns: Columns): Question[] {
  const claims = [...timeClaim(time), ...channels.flatMap(nameClaim)];
  const asked = new Set(claims.map(({ channel }) => channel));
  const others = channels.filter(({ kind }) => !asked.has(kind.name));
  return [...nameQuestions(claims), ...sizeQuestions(others, columns)];
}

/** A unit of the map that is not the one in the column's name. */
interface NameClaim {
  readonly channel: string;
  readonly column: string;
  readonly unit: string;
  readonly named: string;
}

function timeClaim(time: ResolvedTime): NameClaim[] {
  if ("rate" in time || conversionOf(time.unit, "time") === null) return [];
  const named = unitNamed(time.column, "time", time.unit);
  return named === null ? [] : [{ channel: "time", column: time.column, unit: time.unit, named }];
}

/** Whoever gives a scale has converted from the name's unit to the map's. */
function nameClaim({ kind, source: { column, unit, scale } }: ResolvedChannel): NameClaim[] {
  const named = scale === 1 ? unitNamed(column, kind.dimension, unit) : null;
  return named === null ? [] : [{ channel: kind.name, column, unit, named }];
}

/** The unit in a column's name, where it fits the quantity and is another than `unit`; else null. */
function unitNamed(column: string, dimension: Dimension, unit: string): string | null {
  const fitting = wordsOf(column).units.filter((one) => conversionOf(one, dimension) !== null);
  return fitting.length === 0 || fitting.includes(unit) ? null : fitting[0]!;
}

/** One question for all columns that contradict the map in the same way. */
function nameQuestions(claims: readonly NameClaim[]): Question[] {
  const groups = new Map<string, NameClaim[]>();
  for (const claim of claims) {
    const key = `${claim.unit}|${claim.named}`;
    groups.set(key, [...(groups.get(key) ?? []), claim]);
  }
  return [...groups.values()].map((group) => {
    const { channel, column, unit, named } = group[0]!;
    const [verb, say] = group.length === 1 ? ["Is", "its name says"] : ["Are", "their names say"];
    const text = `${verb} ${listed(group.map((claim) => claim.column))} really in ${spoken(unit)} (${say} ${named})?`;
    return { channel, column, text };
  });
}

function sizeQuestions(channels: readonly ResolvedChannel[], columns: Columns): Question[] {
  return channels.flatMap(({ kind, position, source: { column, unit, scale, offset } }) => {
    const cells = columns.numbers.get(position);
    const reach = cells === undefined ? 0 : reachOf(cells, scale, offset);
    const doubt = doubtUnit(kind, unit, reach);
    if (doubt === null) return [];
    const size = Number(reach.toPrecision(4));
    const text = `Is "${shorten(column)}" really in ${spoken(unit)} (it reaches ${size}, ${doubt})?`;
    return [{ channel: kind.name, column, text }];
  });
}

function reachOf(cells: Float64Array, scale: number, offset: number): number {
  let reach = 0;
  for (let row = 0; row < cells.length; row++) {
    const size = Math.abs(cells[row]! * scale + offset);
    if (size > reach && size <= Number.MAX_VALUE) reach = size;
  }
  return reach;
}

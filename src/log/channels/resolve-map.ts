import { InputError, type Place } from "../../input/index.ts";
import type { Question } from "../log.ts";
import type { Table, TableColumn } from "../table/describe-table.ts";
import { shorten } from "../table/table-error.ts";
import type { ChannelMap, ChannelSource } from "./channel-map.ts";
import { type ChannelKind, channelKindOf } from "./channel-names.ts";
import { nearestWord } from "./nearest-word.ts";
import { conversionOf } from "./units.ts";

/** A channel with the very column that it comes from. */
export interface ResolvedChannel {
  readonly kind: ChannelKind;
  /** place of the column in the table */
  readonly position: number;
  readonly source: ChannelSource;
  readonly confidence: number;
  readonly why: string;
}

export type ResolvedTime =
  | { readonly position: number; readonly column: string; readonly unit: string; readonly secondsPerUnit: number }
  | { readonly rate: number };

/** Which column of one table is which channel. */
export interface ResolvedMap {
  readonly time: ResolvedTime;
  readonly channels: readonly ResolvedChannel[];
  readonly questions: readonly Question[];
}

/** Why a column is taken for a channel where a map, not its name, decides. */
export const SAID_BY_MAP = "the channel map says so";

/**
 * Looks up the columns of a channel map in a table.
 *
 * @throws InputError with line and key of the map where the table lacks a column, or has two of the very same name
 */
export function resolveMap(map: ChannelMap, table: Table): ResolvedMap {
  const { time } = map;
  return {
    time: "rate" in time ? time : resolveTime(map, table, time.column, time.unit),
    channels: [...map.channels].map(([name, source]) => ({
      kind: channelKindOf(name)!,
      position: columnNamed(table, source.column, map.placeOf("channels", name, "column")).position,
      source,
      confidence: 1,
      why: SAID_BY_MAP,
    })),
    questions: [],
  };
}

function resolveTime(map: ChannelMap, table: Table, column: string, unit: string | null): ResolvedTime {
  const { position, kind } = columnNamed(table, column, map.placeOf("time", "column"));
  if (kind === "timestamp") return { position, column, unit: "date and time", secondsPerUnit: 1e-6 };
  if (unit === null) {
    throw new InputError(map.placeOf("time"), "states no unit", "add unit: s or ms or us or ns");
  }
  return { position, column, unit, secondsPerUnit: conversionOf(unit, "time")!.factor };
}

function columnNamed({ file, columns }: Table, name: string, place: Place): TableColumn {
  const found = columns.filter((column) => column.name === name);
  if (found.length === 1) return found[0]!;
  if (found.length > 1) {
    const problem = `${file} has ${found.length} columns named "${shorten(name)}"`;
    throw new InputError(place, problem, "give them different names in the log's header");
  }
  const meant = nearestWord(
    name,
    columns.map((column) => column.name),
  );
  const remedy = meant === null ? listColumns(columns) : `did you mean "${shorten(meant)}"?`;
  throw new InputError(place, `${file} has no column "${shorten(name)}"`, remedy);
}

/** "it has a, b and 3 more": the columns of a log, for messages. */
export function listColumns(columns: readonly TableColumn[]): string {
  const names = columns.slice(0, 8).map(({ name }) => shorten(name, 24));
  return `it has ${names.join(", ")}${columns.length > names.length ? ` and ${columns.length - names.length} more` : ""}`;
}

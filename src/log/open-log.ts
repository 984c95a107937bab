import { InputError } from "../input/index.ts";
import { type ChannelMap, readChannelMap } from "./channels/channel-map.ts";
import { listColumns, type ResolvedMap, resolveMap } from "./channels/resolve-map.ts";
import { matchColumns } from "./matching/match-columns.ts";
import { mapQuestions } from "./matching/questions.ts";
import { settleMatches } from "./matching/settle-matches.ts";
import { checksum } from "./table/checksum.ts";
import { describeTable, type Table } from "./table/describe-table.ts";
import { type Columns, type Progress, readColumns } from "./table/read-columns.ts";

export interface OpenOptions {
  /** channel map file; without one, columns are matched by the words in their names */
  readonly channels?: string | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/** A log whose columns are read and named, still as they were written. */
export interface OpenedLog {
  readonly table: Table;
  readonly columns: Columns;
  readonly resolved: ResolvedMap;
  readonly map: ChannelMap | null;
  readonly sha256: string;
}

/** For a look at a log whose columns are still to be named. */
export interface Listing {
  /** further columns to read, by position; what they hold that is no number is left out */
  alsoRead(table: Table): readonly number[];
}

/**
 * Reads the columns of a log that its channel map or the words in their names call for.
 *
 * @param listing where given, a log without a map whose names say nothing, or name no time, is no error: its rows are
 *   counted one a second, and a question says so
 * @throws InputError in one line with place and remedy where the log or its map cannot be used
 */
export async function openLog(
  file: string,
  { channels, onProgress }: OpenOptions,
  listing: Listing | null = null,
): Promise<OpenedLog> {
  const map = channels === undefined ? null : await readChannelMap(channels);
  const table = await describeTable(file);
  const naming = map === null ? namedByWords(table, listing !== null) : namedByMap(map, table);
  const lenient = new Set(listing?.alsoRead(table).filter((position) => !naming.positions.includes(position)));
  const [sum, read] = await Promise.allSettled([
    checksum(file, table.format),
    readColumns(table, [...naming.positions, ...lenient], { text: naming.text, lenient, onProgress }),
  ]);
  // A cut gzip file ends in the middle of a row: say that it is cut, not that its last row is odd.
  if (sum.status === "rejected") throw sum.reason;
  if (read.status === "rejected") throw read.reason;
  if (read.value.rows < 2) throw tooFewRows(file, read.value.rows);
  return { table, columns: read.value, resolved: naming.settle(read.value), map, sha256: sum.value };
}

interface Naming {
  readonly positions: readonly number[];
  /** positions that hold words */
  readonly text: ReadonlySet<number>;
  settle(columns: Columns): ResolvedMap;
}

function namedByMap(map: ChannelMap, table: Table): Naming {
  const resolved = resolveMap(map, table);
  if (resolved.channels.length === 0) {
    throw new InputError({ file: map.file, key: "channels" }, "maps no channel", "add at least one");
  }
  return {
    ...wanted("position" in resolved.time ? [resolved.time] : [], resolved.channels),
    settle: (columns) => ({ ...resolved, questions: mapQuestions(resolved, columns) }),
  };
}

function namedByWords(table: Table, isListing: boolean): Naming {
  const candidates = matchColumns(table);
  if (candidates.channels.length === 0 && !isListing) {
    throw new InputError(
      { file: table.file },
      "no column is named in words that say what it is",
      `write a channel map; ${listColumns(table.columns)}`,
    );
  }
  return {
    ...wanted(candidates.time, candidates.channels),
    settle: (columns) => settleMatches(candidates, columns, table, { needsTime: !isListing }),
  };
}

interface Placed {
  readonly position: number;
}

function wanted(time: readonly Placed[], channels: readonly (Placed & { readonly kind: { dimension: string } })[]) {
  return {
    positions: [...time, ...channels].map(({ position }) => position),
    text: new Set(channels.filter(({ kind }) => kind.dimension === "text").map(({ position }) => position)),
  };
}

function tooFewRows(file: string, rows: number): InputError {
  return rows === 0
    ? new InputError({ file }, "holds a header and no rows", "check that the log was copied whole")
    : new InputError({ file }, "holds one row only", "a log needs at least two; check that it was copied whole");
}

import { InputError } from "../input/index.ts";
import { buildLog } from "./build-log.ts";
import { type ChannelMap, readChannelMap } from "./channels/channel-map.ts";
import { type ResolvedMap, resolveMap } from "./channels/resolve-map.ts";
import type { Log } from "./log.ts";
import { checksum } from "./table/checksum.ts";
import { describeTable, type Table } from "./table/describe-table.ts";
import { type Columns, type Progress, readColumns } from "./table/read-columns.ts";

export interface LoadOptions {
  /** channel map file; without one, columns are matched by the words in their names */
  readonly channels?: string | undefined;
  /** s on the log's own clock; channels are cut to the stretch between */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/**
 * Reads a log: its mapped columns, converted to SI, on one clock, with what is known about their sampling.
 *
 * @param file a table as `describeTable` takes it
 * @throws InputError in one line with place and remedy where the log or its map cannot be used
 */
export async function loadLog(file: string, options: LoadOptions = {}): Promise<Log> {
  const map = options.channels === undefined ? null : await readChannelMap(options.channels);
  const table = await describeTable(file);
  const [sum, read] = await Promise.allSettled([
    checksum(file, table.format),
    map === null ? readByWords(table, options) : readByMap(table, map, options),
  ]);
  // A cut gzip file ends in the middle of a row: say that it is cut, not that its last row is odd.
  if (sum.status === "rejected") throw sum.reason;
  if (read.status === "rejected") throw read.reason;
  const { columns, resolved } = read.value;
  return buildLog({ table, columns, resolved, map, sha256: sum.value, stretch: stretchOf(options) });
}

interface ReadTable {
  readonly columns: Columns;
  readonly resolved: ResolvedMap;
}

async function readByMap(table: Table, map: ChannelMap, { onProgress }: LoadOptions): Promise<ReadTable> {
  const resolved = resolveMap(map, table);
  const positions = resolved.channels.map(({ position }) => position);
  const text = new Set(
    resolved.channels.filter(({ kind }) => kind.dimension === "text").map(({ position }) => position),
  );
  if ("position" in resolved.time) positions.unshift(resolved.time.position);
  if (positions.length === 0) {
    throw new InputError({ file: map.file, key: "channels" }, "maps no column", "add a channel");
  }
  return { resolved, columns: await readColumns(table, positions, { text, onProgress }) };
}

async function readByWords(_table: Table, _options: LoadOptions): Promise<ReadTable> {
  throw new Error("not yet");
}

function stretchOf({ from, to }: LoadOptions): { from: number; to: number } {
  return { from: from ?? Number.NEGATIVE_INFINITY, to: to ?? Number.POSITIVE_INFINITY };
}

import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createGunzip } from "node:zlib";
import { splitRecords } from "./delimited-text.ts";
import type { Table } from "./describe-table.ts";
import { hasOpenQuote, unconvertedColumn } from "./table-error.ts";

/** Bytes of the end of a file that are looked at; a longer last row is not recognised. */
const TAIL = 1 << 20;

/**
 * The last row of a text table, where the table was cut off in its middle: no line break ends it, and it has too few
 * cells or its last one is what the engine could not read. Null for any other table: a last row that is whole needs no line
 * break, and one with too many cells was not cut.
 *
 * @param cause why the engine refused the table
 */
export async function cutRow({ file, format, columns, dialect }: Table, cause: unknown): Promise<string | null> {
  if (dialect === null) return null;
  const tail = await lastBytes(file, format.gzip).catch(() => null);
  if (tail === null) return null;
  const row = tail.slice(Math.max(tail.lastIndexOf("\n"), tail.lastIndexOf("\r")) + 1);
  if (row === "" || row.length === tail.length) return null;
  const cells = splitRecords(row, dialect.separator)[0]!.length;
  if (cells < columns.length) return row;
  const isLastCell = hasOpenQuote(cause) || unconvertedColumn(cause) === columns.length - 1;
  return cells === columns.length && isLastCell ? row : null;
}

/** @throws Error where a packed file cannot be unpacked to its end */
async function lastBytes(file: string, gzip: boolean): Promise<string> {
  if (!gzip) return endOf(createReadStream(file, { start: Math.max(0, (await stat(file)).size - TAIL) }));
  return endOf(createReadStream(file).pipe(createGunzip()));
}

async function endOf(stream: AsyncIterable<Uint8Array>): Promise<string> {
  let parts: Uint8Array[] = [];
  let held = 0;
  for await (const part of stream) {
    parts.push(part);
    held += part.length;
    if (held < 2 * TAIL) continue;
    parts = [Buffer.concat(parts).subarray(-TAIL)];
    held = TAIL;
  }
  return new TextDecoder().decode(Buffer.concat(parts).subarray(-TAIL));
}

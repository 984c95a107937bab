import { stat } from "node:fs/promises";
import type { DuckDBConnection } from "@duckdb/node-api";
import { InputError, unreadable } from "../../input/index.ts";
import { type Dialect, sniffDecimal, sniffSeparator, splitRecords } from "./delimited-text.ts";
import { quotePath, withEngine } from "./engine.ts";
import { type Head, readHead } from "./read-head.ts";
import { explainTableError } from "./table-error.ts";
import { type TableFormat, tableFormatOf } from "./table-format.ts";

/** What a column seems to hold, from the first rows (text, ndjson) or from the file's own schema (Parquet). */
export type ColumnKind = "number" | "boolean" | "timestamp" | "text";

export interface TableColumn {
  /** place in the table, counted from 0; the only sure handle, because names may be twins */
  readonly position: number;
  /** exactly as written */
  readonly name: string;
  readonly kind: ColumnKind;
}

/** A table before it is read. */
export interface Table {
  readonly file: string;
  readonly format: TableFormat;
  readonly columns: readonly TableColumn[];
  /** for delimited text only */
  readonly dialect: Dialect | null;
  /** how many rows there may be, from the size of the first ones; only a guess to size arrays with */
  readonly expectedRows: number;
}

/**
 * Finds a table's columns without reading it through.
 *
 * @throws InputError where the file cannot be opened, is no table of its kind, or has no header
 */
export async function describeTable(file: string): Promise<Table> {
  await checkIsFile(file);
  const format = tableFormatOf(file);
  const head = await readHead(file, format.gzip);
  if (format.kind === "text") return describeText(file, format, head);
  return withEngine(async (connection) => {
    try {
      return format.kind === "parquet"
        ? await describeParquet(connection, file, format)
        : await describeNdjson(connection, file, format, head);
    } catch (cause) {
      throw explainTableError(cause, { file, columns: [] });
    }
  });
}

/** Before its ending is looked at: a folder or a misspelt path is the likelier mistake. */
async function checkIsFile(file: string): Promise<void> {
  const found = await stat(file).catch((cause: NodeJS.ErrnoException) => {
    throw unreadable(file, cause);
  });
  if (found.isDirectory()) throw unreadable(file, Object.assign(new Error("EISDIR"), { code: "EISDIR" }));
}

const SAMPLED_RECORDS = 400;

function describeText(file: string, format: TableFormat, head: Head): Table {
  const text = decodeText(file, head.bytes);
  const separator = sniffSeparator(text, head.isWhole);
  const records = splitRecords(text, separator, { limit: SAMPLED_RECORDS, isWhole: head.isWhole });
  const names = records.shift();
  if (names === undefined) {
    throw new InputError({ file, line: 1 }, "no end of the header line was found", "check that this is a text table");
  }
  if (names.length > 1 && names.every((name) => isNumber(name, "."))) {
    throw new InputError(
      { file, line: 1 },
      "the first line holds numbers where column names are needed",
      "add a header line",
    );
  }
  // A last row that was cut off in its middle says nothing of what its column holds.
  if (head.isWhole && !/[\n\r]$/.test(text) && (records.at(-1)?.length ?? 0) < names.length) records.pop();
  const rows = records.filter((cells) => cells.length > 1 || cells[0] !== "");
  const decimal = sniffDecimal(rows, separator);
  const columns = names.map((name, position) => {
    return {
      position,
      name,
      kind: kindOf(
        rows.map((cells) => cells[position] ?? ""),
        decimal,
      ),
    };
  });
  return { file, format, columns, dialect: { separator, decimal }, expectedRows: expectRows(head) };
}

function decodeText(file: string, bytes: Uint8Array): string {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    throw new InputError({ file }, "is text in UTF-16", "save it as UTF-8");
  }
  if (bytes.includes(0)) throw new InputError({ file }, "holds binary data, not text", "check the file and its ending");
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes, { stream: true });
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}

/** Rows in the file, if the rest is like the head. */
function expectRows({ bytes, fileSize, consumed, isWhole }: Head): number {
  let lines = 0;
  for (const byte of bytes) if (byte === 10 || byte === 13) lines++;
  return isWhole ? lines : Math.ceil((lines / consumed) * fileSize * 1.05);
}

async function describeParquet(connection: DuckDBConnection, file: string, format: TableFormat): Promise<Table> {
  const source = quotePath(file);
  const schema = await connection.run(`SELECT name, num_children FROM parquet_schema(${source})`);
  const nodes = (await schema.getRows()).map(([name, children]) => ({
    name: String(name),
    children: Number(children ?? 0),
  }));
  const types = await connection.run(`DESCRIBE SELECT * FROM read_parquet(${source})`);
  const kinds = (await types.getRows()).map((row) => kindOfType(String(row[1])));
  const counted = await connection.run(`SELECT count(*) FROM read_parquet(${source})`);
  const columns = topLevel(nodes).map((name, position) => ({ position, name, kind: kinds[position] ?? "text" }));
  return { file, format, columns, dialect: null, expectedRows: Number((await counted.getRows())[0]?.[0] ?? 0) };
}

/** The schema lists its tree depth first, the root before all; only the root's own children are columns. */
function topLevel(nodes: readonly { name: string; children: number }[]): string[] {
  const names: string[] = [];
  const skip = (at: number): number => {
    let next = at + 1;
    for (let child = 0; child < (nodes[at]?.children ?? 0); child++) next = skip(next);
    return next;
  };
  for (let at = 1; at < nodes.length; at = skip(at)) names.push(nodes[at]!.name);
  return names;
}

function kindOfType(type: string): ColumnKind {
  if (/^(TIMESTAMP|DATE$)/.test(type)) return "timestamp";
  if (type === "BOOLEAN") return "boolean";
  return /^(U?(TINY|SMALL|BIG|HUGE)?INT(EGER)?|FLOAT|DOUBLE|DECIMAL\(.*\))$/.test(type) ? "number" : "text";
}

/** All keys of all lines, in the order in which they first appear: a slow channel may turn up late. */
async function describeNdjson(
  connection: DuckDBConnection,
  file: string,
  format: TableFormat,
  head: Head,
): Promise<Table> {
  const lines = `read_ndjson_objects(${quotePath(file)})`;
  const keys = await connection.run(
    `SELECT key, min(line) AS first, min(place) AS place, min(value) FILTER (value IS NOT NULL AND line < 400) FROM (
       SELECT line, unnest(keys) AS key, unnest(range(len(keys))) AS place,
              unnest(list_transform(keys, k -> json_extract_string(json, '/' || replace(replace(k, '~', '~0'), '/', '~1')))) AS value
       FROM (SELECT json, json_keys(json) AS keys, row_number() OVER () AS line FROM ${lines} WHERE json_type(json) = 'OBJECT'))
     GROUP BY key ORDER BY first, place`,
  );
  const columns = (await keys.getRows()).map(([name, , , sample], position) => ({
    position,
    name: String(name),
    kind: kindOf([sample === null ? "" : String(sample)], "."),
  }));
  return { file, format, columns, dialect: null, expectedRows: expectRows(head) };
}

/** Share of numbers from which on a column is one of numbers. */
const MOSTLY = 0.9;

function kindOf(cells: readonly string[], decimal: Dialect["decimal"]): ColumnKind {
  const filled = cells.map((cell) => cell.trim()).filter((cell) => !isMissing(cell));
  const numbers = filled.filter((cell) => isNumber(cell, decimal)).length;
  // A stray word among numbers is an error that reading will name, not a column of words.
  if (numbers >= MOSTLY * filled.length) return "number";
  if (filled.every((cell) => /^(true|false)$/i.test(cell))) return "boolean";
  if (filled.every((cell) => /^\d{4}-\d{2}-\d{2}([T ]\d{2}:\d{2}|$)/.test(cell))) return "timestamp";
  return "text";
}

const isNumber = (cell: string, decimal: Dialect["decimal"]) =>
  (decimal === "," ? /^[-+]?(\d+,?\d*|,\d+)(e[-+]?\d+)?$/i : /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i).test(cell.trim());

/** Spellings of "no value"; the reader takes the same ones. */
export const MISSING_CELLS: readonly string[] = ["", "NA", "N/A", "null", "NULL", "None"];

const isMissing = (cell: string) => MISSING_CELLS.includes(cell) || /^[-+]?(nan|inf(inity)?)$/i.test(cell);

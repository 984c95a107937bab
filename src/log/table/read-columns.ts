import type { DuckDBConnection, DuckDBDataChunk } from "@duckdb/node-api";
import { InputError } from "../../input/index.ts";
import { cutRow } from "./cut-row.ts";
import { MISSING_CELLS, type Table, type TableColumn } from "./describe-table.ts";
import { quotePath, quoteText, withEngine } from "./engine.ts";
import { explainTableError, shorten, unconvertedCell } from "./table-error.ts";

/** How far reading has come. */
export interface Progress {
  /** rows read so far, as far as can be told */
  readonly rows: number;
  /** 0..1; null where the engine cannot tell */
  readonly share: number | null;
}

export interface ReadOptions {
  /** columns to read as words instead of numbers, by position */
  readonly text?: ReadonlySet<number>;
  /** columns in which a cell that does not convert is merely missing, by position */
  readonly lenient?: ReadonlySet<number>;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/** Columns of a table; every array is `rows` long. */
export interface Columns {
  readonly rows: number;
  /** the text was cut off in the middle of its last row, which is left out */
  readonly isCut: boolean;
  /** by position; a missing cell is NaN, true is 1, a point in time is microseconds since 1970 in UTC */
  readonly numbers: ReadonlyMap<number, Float64Array>;
  /** by position; a missing cell is null */
  readonly texts: ReadonlyMap<number, readonly (string | null)[]>;
}

/**
 * Reads some columns of a table into typed arrays, straight from the engine's column vectors.
 *
 * @param positions places of the columns in `table.columns`
 * @throws InputError with line and column where a row is ragged (but for a last one that was cut off) or a cell does not hold what its column should
 */
export async function readColumns(
  table: Table,
  positions: readonly number[],
  { text = new Set(), lenient = new Set(), onProgress }: ReadOptions = {},
): Promise<Columns> {
  const wanted = [...new Set(positions)].map((position) => columnAt(table, position));
  const read = wanted.map((column) => {
    return { column, isText: text.has(column.position), isLenient: lenient.has(column.position) };
  });
  if (read.length === 0) return { rows: 0, isCut: false, numbers: new Map(), texts: new Map() };
  return withEngine(async (connection) => {
    const ticker = await watchProgress(connection, table, onProgress);
    try {
      return await readAll(connection, table, read);
    } catch (cause) {
      throw explainTableError(cause, table);
    } finally {
      clearInterval(ticker);
    }
  });
}

/**
 * To look each cell up among the words for "no value" takes a fifth of the time of reading, and few tables use them: a text
 * table is read without, and once more with them where one turns up. A text table that was cut off in the middle of its
 * last row, as a crash does it, is read without that row; any other bad row is an error.
 */
async function readAll(connection: DuckDBConnection, table: Table, wanted: readonly Wanted[]): Promise<Columns> {
  const read = async (missing: readonly string[], bad: BadRows = "refused") => {
    const result = await connection.stream(selectColumns(table, wanted, missing, bad));
    return collect(() => result.fetchChunk(), wanted, table);
  };
  if (table.format.kind !== "text") return read(MISSING_CELLS);
  let cause: unknown;
  try {
    return await read([""]);
  } catch (first) {
    cause = first;
  }
  if (MISSING_CELLS.includes(unconvertedCell(cause) ?? "")) {
    try {
      return await read(MISSING_CELLS);
    } catch (second) {
      cause = second;
    }
  }
  const row = await cutRow(table, cause);
  if (row === null) throw cause;
  const columns = await read(MISSING_CELLS, "set aside");
  if (!(await isOnlyOneSetAside(connection, row))) throw cause;
  return { ...columns, isCut: true };
}

/** What becomes of rows that the engine cannot read: the reading ends, or they are left out and listed. */
type BadRows = "refused" | "set aside";

/** Whether the rows that were left out are this one, the table's last, and no other. */
async function isOnlyOneSetAside(connection: DuckDBConnection, row: string): Promise<boolean> {
  const aside = await connection.run("SELECT DISTINCT line, csv_line FROM reject_errors");
  const lines = await aside.getRows();
  // Where lines end in CR LF the engine lists a line with the LF before it.
  return lines.length === 1 && String(lines[0]![1]).trim() === row.trim();
}

interface Wanted {
  readonly column: TableColumn;
  readonly isText: boolean;
  readonly isLenient: boolean;
}

function columnAt(table: Table, position: number): TableColumn {
  const column = table.columns[position];
  if (column === undefined) throw new RangeError(`no column ${position} in ${table.file}`);
  return column;
}

async function watchProgress(connection: DuckDBConnection, table: Table, onProgress: ReadOptions["onProgress"]) {
  if (onProgress === undefined) return undefined;
  // The engine counts only while it believes that someone looks at its bar, which stays unprinted.
  for (const setting of ["enable_progress_bar = true", "enable_progress_bar_print = false", "progress_bar_time = 0"]) {
    await connection.run(`SET ${setting}`);
  }
  return setInterval(() => {
    const { percentage } = connection.progress;
    const share = percentage < 0 ? null : Math.min(percentage / 100, 1);
    onProgress({ rows: Math.round((share ?? 0) * table.expectedRows), share });
  }, 100);
}

function selectColumns(table: Table, wanted: readonly Wanted[], missing: readonly string[], bad: BadRows): string {
  switch (table.format.kind) {
    case "text":
      return selectFromText(table, wanted, missing, bad);
    case "parquet":
      return selectFromParquet(table, wanted);
    case "ndjson":
      return selectFromNdjson(table, wanted);
  }
}

/**
 * Every column is named by its position, so that twins, empty names and odd characters cannot go astray; those not
 * wanted are left as text and never converted.
 */
function selectFromText(
  { file, columns, dialect }: Table,
  wanted: readonly Wanted[],
  missing: readonly string[],
  bad: BadRows,
): string {
  const types = columns.map(() => "VARCHAR");
  for (const { column, isText, isLenient } of wanted) {
    types[column.position] = isText || isLenient ? "VARCHAR" : TEXT_TYPES[column.kind];
  }
  const fields = types.map((type, position) => `c${position}: '${type}'`).join(", ");
  const { separator, decimal } = dialect!;
  const selected = wanted.map(({ column, isText, isLenient }) => {
    const name = `c${column.position}`;
    if (isText || !isLenient) return asDouble(name, isText ? "text" : column.kind);
    const cell = decimal === "," && column.kind === "number" ? `replace(${name}, ',', '.')` : name;
    return asDouble(`TRY_CAST(${cell} AS ${TEXT_TYPES[column.kind]})`, column.kind);
  });
  return `SELECT ${selected.join(", ")} FROM read_csv(${quotePath(file)}, auto_detect = false, header = true,
    delim = ${quoteText(separator)}, quote = '"', escape = '"', decimal_separator = '${decimal}',
    buffer_size = ${SCANNED_AT_ONCE}, nullstr = [${missing.map(quoteText).join(", ")}], columns = {${fields}}${bad === "set aside" ? SET_ASIDE : ""})`;
}

/**
 * Bytes of text that one core takes at a time. The engine would take 32 MB; small pieces are used again and again instead
 * of being asked for anew, which saves a quarter of the work. A line may be half as long.
 */
const SCANNED_AT_ONCE = 2 << 20;

/** More than one is one too many, so no more than two are listed. */
const SET_ASIDE = ", store_rejects = true, rejects_limit = 2";

/** Cells are converted by the reader itself, because only it can tell the line of a cell that will not convert. */
const TEXT_TYPES = { number: "DOUBLE", boolean: "BOOLEAN", timestamp: "TIMESTAMPTZ", text: "DOUBLE" } as const;

function asDouble(expression: string, kind: TableColumn["kind"]): string {
  if (kind === "boolean") return `${expression}::INTEGER::DOUBLE`;
  return kind === "timestamp" ? `epoch_us(${expression})::DOUBLE` : expression;
}

function selectFromParquet({ file, columns }: Table, wanted: readonly Wanted[]): string {
  const selected = wanted.map(({ column, isText }) => {
    const name = `c${column.position}`;
    if (isText) return `${name}::VARCHAR`;
    if (column.kind === "number") return `${name}::DOUBLE`;
    if (column.kind === "text") throw wordsIn(file, column);
    return asDouble(column.kind === "timestamp" ? `${name}::TIMESTAMP` : name, column.kind);
  });
  const names = columns.map((_, position) => `c${position}`).join(", ");
  return `SELECT ${selected.join(", ")} FROM read_parquet(${quotePath(file)}) AS log(${names})`;
}

function selectFromNdjson({ file }: Table, wanted: readonly Wanted[]): string {
  const selected = wanted.map(({ column, isText, isLenient }) => {
    const pointer = `/${column.name.replaceAll("~", "~0").replaceAll("/", "~1")}`;
    const cell = `json_extract_string(json, ${quoteText(pointer)})`;
    if (isText) return cell;
    const converted = column.kind === "text" ? "number" : column.kind;
    const problem = quoteText(`CSV Error on Line: `);
    const conversion = `Error when converting column "c${column.position}". Could not convert string "`;
    const type = TEXT_TYPES[converted];
    const missing = MISSING_CELLS.map(quoteText).join(", ");
    if (isLenient) return asDouble(`TRY_CAST(${cell} AS ${type})`, converted);
    // Not IN: of a list this long the engine makes a join, and a join loses the order of the rows.
    return `CASE WHEN ${cell} IS NULL OR list_contains([${missing}], ${cell}) THEN NULL
      ELSE coalesce(${asDouble(`TRY_CAST(${cell} AS ${type})`, converted)},
        error(${problem} || line || ${quoteText(` ${conversion}`)} || ${cell} || ${quoteText(`" to '${type}'`)})) END`;
  });
  return `SELECT ${selected.join(", ")} FROM (SELECT json, row_number() OVER () AS line
    FROM read_ndjson_objects(${quotePath(file)}))`;
}

function wordsIn(file: string, column: TableColumn): InputError {
  return new InputError({ file, column: shorten(column.name) }, "holds words, not numbers", "name another column");
}

async function collect(
  nextChunk: () => Promise<DuckDBDataChunk | null>,
  wanted: readonly Wanted[],
  table: Table,
): Promise<Columns> {
  const texts = wanted.map((): (string | null)[] => []);
  let numbers: Float64Array[] = wanted.map(
    ({ isText }) => new Float64Array(isText ? 0 : Math.max(table.expectedRows, 16)),
  );
  let rows = 0;
  for (let chunk = await nextChunk(); chunk !== null; chunk = await nextChunk()) {
    // Asked once: each question to the engine costs as much as copying a column.
    const count = chunk.rowCount;
    if (count === 0) break;
    const capacity = Math.max(...numbers.map((array) => array.length));
    if (rows + count > capacity && capacity > 0) {
      numbers = numbers.map((array) => resized(array, array.length === 0 ? 0 : Math.ceil(1.5 * capacity) + 2048));
    }
    for (let at = 0; at < wanted.length; at++) {
      if (wanted[at]!.isText) appendTexts(chunk, at, texts[at]!);
      else copyNumbers(chunk, at, count, numbers[at]!, rows);
    }
    rows += count;
  }
  return {
    rows,
    isCut: false,
    numbers: new Map(
      wanted.flatMap(({ column, isText }, at) =>
        isText ? [] : [[column.position, trimmed(numbers[at]!, rows)] as const],
      ),
    ),
    texts: new Map(
      wanted.flatMap(({ column, isText }, at) => (isText ? [[column.position, texts[at]!] as const] : [])),
    ),
  };
}

/** The parts of the engine's column vector that hold its data, which its types keep to themselves. */
interface DoubleVector {
  readonly items: Float64Array;
  /** one bit a row, set where there is a value; null where all have one */
  readonly validity: { readonly data: BigUint64Array | null };
}

function copyNumbers(chunk: DuckDBDataChunk, at: number, count: number, into: Float64Array, offset: number): void {
  const { items, validity } = chunk.getColumnVector(at) as unknown as DoubleVector;
  into.set(items.length === count ? items : items.subarray(0, count), offset);
  const bits = validity.data;
  if (bits === null) return;
  const words = new Uint32Array(bits.buffer, bits.byteOffset, bits.length * 2);
  for (let row = 0; row < count; row++) {
    if (((words[row >>> 5]! >>> (row & 31)) & 1) === 0) into[offset + row] = Number.NaN;
  }
}

/** Words repeat (a flight mode lasts many rows), so each is kept once. */
function appendTexts(chunk: DuckDBDataChunk, at: number, into: (string | null)[]): void {
  const known = new Map<string, string>();
  for (const value of chunk.getColumnValues(at)) {
    if (typeof value !== "string" || MISSING_CELLS.includes(value)) into.push(null);
    else {
      if (!known.has(value)) known.set(value, into.at(-1) === value ? into.at(-1)! : value);
      into.push(known.get(value)!);
    }
  }
}

function resized(array: Float64Array, length: number): Float64Array {
  const larger = new Float64Array(length);
  larger.set(array);
  return larger;
}

/** A view where little is wasted, a copy where much is. */
const trimmed = (array: Float64Array, length: number) =>
  length > 0.8 * array.length ? array.subarray(0, length) : array.slice(0, length);

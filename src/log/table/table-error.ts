import { InputError, type Place } from "../../input/index.ts";

/** What is known where the engine fails: the file, and the name of each column by its position. */
export interface TableContext {
  readonly file: string;
  readonly columns: readonly { readonly name: string }[];
}

/**
 * Puts the engine's many-line account of a bad table into one line with place and remedy. Whatever is not about the
 * user's file is handed back untouched.
 */
export function explainTableError(cause: unknown, { file, columns }: TableContext): unknown {
  if (cause instanceof InputError || !(cause instanceof Error)) return cause;
  const { message } = cause;
  const wrong = (place: Omit<Place, "file">, problem: string, remedy: string) =>
    new InputError({ file, ...place }, problem, remedy, { cause });
  const lineNumber = /CSV Error on Line: (\d+)/.exec(message)?.[1];
  const line = lineNumber === undefined ? {} : { line: Number(lineNumber) };

  const text = UNCONVERTED.exec(message);
  if (text !== null) {
    const column = columns[Number(text[1])]?.name;
    return wrong(
      { ...line, ...(column === undefined ? {} : { column: shorten(column) }) },
      `"${shorten(text[2]!)}" is not ${WANTED[text[3]!] ?? "a number"}`,
      "mend the cell, or leave it empty",
    );
  }
  const cells = /Expected Number of Columns: (\d+) Found: (\d+)/.exec(message);
  if (cells !== null) {
    return wrong(line, `${cells[2]} cells where the header has ${cells[1]}`, "mend or delete the line");
  }
  if (hasOpenQuote(cause)) {
    return wrong(line, "a quote is opened and never closed", 'close it, or double the quotes (RFC 4180: "")');
  }
  if (/unicode|utf-?8/i.test(message)) return wrong(line, "the text is not UTF-8", "save the table as UTF-8");
  if (/maximum line size|max_line_size/i.test(message)) {
    return wrong(line, "a line is longer than 2 MB", "check that this is a text table with one row a line");
  }
  if (/gzip|decompress|deflate/i.test(message)) {
    return wrong({}, "the gzip data is damaged", "copy the log again, and check that the copy is whole");
  }
  if (/parquet|magic bytes|thrift/i.test(message)) {
    return wrong({}, "is not a Parquet table, or it is cut short", "check the file and its ending");
  }
  const json = /Malformed JSON[\s\S]*?line (\d+)/.exec(message);
  if (json !== null) return wrong({ line: Number(json[1]) }, "is not valid JSON", "write one object a line");
  if (/IO Error/.test(message)) return wrong({}, `cannot be read (${shorten(message)})`, "check the file");
  if (/CSV Error/.test(message)) {
    return wrong(line, "the line cannot be read as a table row", "check its quotes and separators");
  }
  return cause;
}

const UNCONVERTED = /Error when converting column "c(\d+)"\. Could not convert string "([\s\S]*?)" to '(\w+)'/;

/** The cell that the engine could not convert, if that is what it complains of. */
export const unconvertedCell = (cause: unknown): string | undefined =>
  cause instanceof Error ? UNCONVERTED.exec(cause.message)?.[2] : undefined;

/** Position of the column whose cell the engine could not convert, if that is what it complains of. */
export function unconvertedColumn(cause: unknown): number | undefined {
  const position = cause instanceof Error ? UNCONVERTED.exec(cause.message)?.[1] : undefined;
  return position === undefined ? undefined : Number(position);
}

/** Whether the engine complains of a quote that is never closed. */
export const hasOpenQuote = (cause: unknown): boolean =>
  cause instanceof Error && /unterminated quote/i.test(cause.message);

const WANTED: Readonly<Record<string, string>> = {
  DOUBLE: "a number",
  BOOLEAN: "true or false",
  TIMESTAMPTZ: "a date and time",
  TIMESTAMP: "a date and time",
};

/** A cell or name of the log, short enough for a message of one line. */
export function shorten(text: string, most = 40): string {
  const characters = [...text];
  return characters.length <= most ? text : `${characters.slice(0, most - 1).join("")}…`;
}

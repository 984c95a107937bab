/** The shape of a delimited text table: RFC 4180, with a separator and a decimal mark of its own. */
export interface Dialect {
  readonly separator: "," | ";" | "\t";
  readonly decimal: "." | ",";
}

/** The rarer in a name, the earlier: among equals the first is taken. */
const SEPARATORS = ["\t", ";", ","] as const;

/**
 * Splits text into records of cells as RFC 4180 says: cells in double quotes may hold separators, line breaks and
 * doubled quotes. Lines may end in LF, CR LF or CR.
 *
 * @param limit most records to return; a last record without a line break counts only where `isWhole`
 */
export function splitRecords(
  text: string,
  separator: string,
  { limit = Number.POSITIVE_INFINITY, isWhole = true } = {},
): string[][] {
  const records: string[][] = [];
  let cells: string[] = [];
  let at = 0;
  while (at < text.length && records.length < limit) {
    const cell = cellAt(text, at, separator);
    cells.push(cell.value);
    at = cell.end;
    if (at < text.length && text[at] === separator) {
      at++;
      if (at < text.length) continue;
      cells.push("");
    }
    const isCut = at >= text.length;
    if (!isCut || isWhole) records.push(cells);
    cells = [];
    at += text.startsWith("\r\n", at) ? 2 : 1;
  }
  return records;
}

function cellAt(text: string, start: number, separator: string): { value: string; end: number } {
  let value = "";
  let at = start;
  if (text[at] === '"') {
    at++;
    while (at < text.length) {
      const quote = text.indexOf('"', at);
      if (quote < 0) return { value: value + text.slice(at), end: text.length };
      value += text.slice(at, quote);
      at = quote + 1;
      if (text[at] !== '"') break;
      value += '"';
      at++;
    }
  }
  let end = at;
  while (end < text.length && text[end] !== separator && text[end] !== "\n" && text[end] !== "\r") end++;
  return { value: value + text.slice(at, end), end };
}

/**
 * The separator that cuts the header into most cells; where two do equally well, the one that cuts the second record
 * into as many. A comma where there is none at all.
 */
export function sniffSeparator(text: string, isWhole: boolean): Dialect["separator"] {
  let best: Dialect["separator"] = ",";
  let bestScore = 0;
  for (const separator of SEPARATORS) {
    const [header, first] = splitRecords(text, separator, { limit: 2, isWhole });
    const cells = header?.length ?? 0;
    const score = cells < 2 ? 0 : cells + (first?.length === cells ? 0.5 : 0);
    if (score > bestScore) [best, bestScore] = [separator, score];
  }
  return best;
}

/**
 * A decimal comma is read only where the separator leaves the comma free and the cells leave no doubt: some hold one
 * comma among digits, none holds a decimal point, and not all of them could be thousands (`1,250`).
 */
export function sniffDecimal(records: readonly (readonly string[])[], separator: string): Dialect["decimal"] {
  if (separator === ",") return ".";
  const cells = records.flat().map((cell) => cell.trim());
  const withComma = cells.filter((cell) => /^[-+]?\d*,\d+(e[-+]?\d+)?$/i.test(cell));
  const withPoint = cells.some((cell) => /^[-+]?\d*\.\d+(e[-+]?\d+)?$/i.test(cell));
  const couldBeThousands = withComma.every((cell) => /^[-+]?[1-9]\d{0,2},\d{3}$/.test(cell));
  return withComma.length > 0 && !withPoint && !couldBeThousands ? "," : ".";
}

import { basename } from "node:path";
import { InputError } from "../../input/index.ts";

/** How a log's bytes are laid out, told by the ending of its name. */
export interface TableFormat {
  readonly kind: "text" | "parquet" | "ndjson";
  readonly gzip: boolean;
}

const FORMATS: readonly (readonly [ending: string, format: TableFormat])[] = [
  [".csv", { kind: "text", gzip: false }],
  [".csv.gz", { kind: "text", gzip: true }],
  [".tsv", { kind: "text", gzip: false }],
  [".tsv.gz", { kind: "text", gzip: true }],
  [".parquet", { kind: "parquet", gzip: false }],
  [".ndjson", { kind: "ndjson", gzip: false }],
  [".ndjson.gz", { kind: "ndjson", gzip: true }],
];

/** The endings that can be read, for messages. */
export const TABLE_ENDINGS: readonly string[] = FORMATS.map(([ending]) => ending);

/** @throws InputError where the ending is none of those in `TABLE_ENDINGS` */
export function tableFormatOf(file: string): TableFormat {
  const name = basename(file).toLowerCase();
  const found = FORMATS.find(([ending]) => name.endsWith(ending));
  if (found === undefined) {
    throw new InputError(
      { file },
      "its ending names no kind of table that can be read",
      `use ${listed(TABLE_ENDINGS)}`,
    );
  }
  return found[1];
}

const listed = (words: readonly string[]) => `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;

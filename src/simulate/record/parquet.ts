import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { csvText } from "./csv.ts";
import type { LogTable } from "./log-table.ts";

/** Writes a table as a Parquet file: numbers as doubles, empty cells as nulls, modes as text. */
export async function writeParquet(table: LogTable, file: string): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "fettle-"));
  const instance = await DuckDBInstance.create(":memory:", { threads: "1" });
  try {
    const text = join(folder, "log.csv");
    await writeFile(text, csvText(table));
    const names = ["time_s", ...table.columns.map(({ column }) => column)];
    const types = [...names.map((name) => `${quote(name)}: 'DOUBLE'`), "'mode': 'VARCHAR'"].join(", ");
    const connection = await instance.connect();
    await connection.run(
      `COPY (SELECT * FROM read_csv(${quote(text)}, header = true, delim = ',', columns = {${types}}))
       TO ${quote(file)} (FORMAT parquet, COMPRESSION zstd)`,
    );
    connection.closeSync();
  } finally {
    instance.closeSync();
    await rm(folder, { recursive: true, force: true });
  }
}

function quote(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

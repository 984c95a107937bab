import { type DuckDBConnection, DuckDBInstance } from "@duckdb/node-api";

/**
 * Opens a table engine in memory for the length of one piece of work. It loads nothing from the network and writes no
 * file. Results wait in a buffer that holds a long flight: with a small one the cores that scan stop and start
 * again at the reader's pace, which takes a third longer.
 */
export async function withEngine<T>(work: (connection: DuckDBConnection) => Promise<T>): Promise<T> {
  const instance = await DuckDBInstance.create(":memory:", {
    autoinstall_known_extensions: "false",
    temp_directory: "",
  });
  const connection = await instance.connect();
  try {
    for (const setting of SETTINGS) await connection.run(`SET ${setting}`);
    return await work(connection);
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

const SETTINGS = ["TimeZone = 'UTC'", "streaming_buffer_size = '128MB'"];

/** A text as an SQL literal. */
export const quoteText = (text: string): string => `'${text.replaceAll("'", "''")}'`;

/** A file name as an SQL literal that means this file and no pattern: `f[1].csv` must not open `f1.csv`. */
export const quotePath = (file: string): string => quoteText(file.replace(/[[*?]/g, "[$&]"));

import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";

/** A folder of the test file's own, removed when its tests are done. */
export function temporaryFolder() {
  const folder = mkdtempSync(join(tmpdir(), "fettle-log-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return {
    path: (name: string) => join(folder, name),
    write(name: string, content: string | Uint8Array): string {
      const file = join(folder, name);
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, content);
      return file;
    },
  };
}

/** A comma-separated table of the given columns, all of one length. */
export function csv(columns: Readonly<Record<string, ArrayLike<number | string>>>): string {
  const names = Object.keys(columns);
  const rows = Array.from({ length: columns[names[0]!]!.length }, (_, row) =>
    names.map((name) => String(columns[name]![row])).join(","),
  );
  return `${[names.join(","), ...rows].join("\n")}\n`;
}

/** What a call that has to fail says. */
export async function messageOf(failing: Promise<unknown> | (() => unknown)): Promise<string> {
  try {
    await (typeof failing === "function" ? failing() : failing);
  } catch (error) {
    if ((error as Error).name !== "InputError") throw error;
    return (error as Error).message;
  }
  throw new Error("expected it to fail");
}

/** n values of a function of the index. */
export const numbers = (n: number, of: (index: number) => number) => Float64Array.from({ length: n }, (_, i) => of(i));

const shared = join(dirname(fileURLToPath(import.meta.url)), "../../../shared/flights");

/** The folder of real flights beside the repository; null, and said so, where it is not there. */
export const realFlights = existsSync(join(shared, "truth.json")) ? shared : null;
if (realFlights === null) {
  const words = `SKIPPED: no real flights at ${shared}`;
  if (process.env.CI !== undefined && process.env.CI !== "") throw new Error(words);
  console.warn(words);
}

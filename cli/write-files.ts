import { randomBytes } from "node:crypto";
import { constants } from "node:fs";
import { access, mkdir, rename, rm, stat, writeFile } from "node:fs/promises";
import { dirname, join, resolve, sep } from "node:path";
import { InputError } from "../src/index.ts";

/** Path below the output folder, with forward slashes -> content. */
export type OutputFiles = ReadonlyMap<string, string | Uint8Array>;

/**
 * Writes files below a folder, all or none to be seen half-written: each goes to a temporary name and is renamed when
 * every one of them is complete.
 *
 * @throws InputError where the folder cannot be written to, or a path would leave it
 */
export async function writeFiles(folder: string, files: OutputFiles): Promise<void> {
  const root = resolve(folder);
  const mark = `.writing-${randomBytes(4).toString("hex")}`;
  const moves: { from: string; to: string }[] = [];
  try {
    for (const [path, content] of files) {
      const to = resolve(root, path);
      if (!to.startsWith(root + sep)) throw new Error(`${path} would leave ${root}`);
      await mkdir(dirname(to), { recursive: true });
      const from = join(dirname(to), `${mark}-${moves.length}`);
      moves.push({ from, to });
      await writeFile(from, content);
    }
    for (const { from, to } of moves) await rename(from, to);
  } catch (cause) {
    await Promise.all(moves.map(({ from }) => rm(from, { force: true })));
    throw unwritable(folder, cause as NodeJS.ErrnoException);
  }
}

/** Fails early, before a long analysis, where the output folder could not be written to. */
export async function checkWritable(folder: string): Promise<void> {
  let nearest = resolve(folder);
  for (;;) {
    const found = await stat(nearest).catch(() => null);
    if (found?.isDirectory()) break;
    if (found !== null) throw new InputError({ file: nearest }, "is a file, not a folder", "choose another --out");
    nearest = dirname(nearest);
  }
  await access(nearest, constants.W_OK).catch((cause) => {
    throw unwritable(folder, cause);
  });
}

function unwritable(folder: string, cause: NodeJS.ErrnoException): Error {
  if (cause.code === undefined) return cause;
  return new InputError({ file: folder }, `cannot be written to (${cause.code})`, "choose another folder with --out", {
    cause,
  });
}

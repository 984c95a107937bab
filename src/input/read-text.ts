import { readFile } from "node:fs/promises";
import { InputError } from "./input-error.ts";

/**
 * Reads a small text file (a map, an aircraft file, a scenario) as UTF-8, without its byte order mark.
 *
 * @throws InputError if it is missing, a folder, unreadable, or larger than `maxBytes`
 */
export async function readText(file: string, maxBytes = 1 << 20): Promise<string> {
  const bytes = await readFile(file).catch((cause: NodeJS.ErrnoException) => {
    throw unreadable(file, cause);
  });
  if (bytes.byteLength > maxBytes) {
    throw new InputError({ file }, `${bytes.byteLength} bytes is too large for a settings file`, "check the file name");
  }
  return bytes.toString("utf8").replace(/^\uFEFF/, "");
}

/** The one-line error for a file that cannot be opened. */
export function unreadable(file: string, cause: NodeJS.ErrnoException): InputError {
  switch (cause.code) {
    case "ENOENT":
      return new InputError({ file }, "no such file", "check the path", { cause });
    case "EISDIR":
      return new InputError({ file }, "is a folder, not a file", "name a file in it", { cause });
    case "EACCES":
    case "EPERM":
      return new InputError({ file }, "may not be read", "check its permissions", { cause });
    default:
      return new InputError({ file }, `cannot be read (${cause.code ?? cause.message})`, "check the path", { cause });
  }
}

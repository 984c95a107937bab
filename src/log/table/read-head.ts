import { type FileHandle, open } from "node:fs/promises";
import { createGunzip } from "node:zlib";
import { InputError, unreadable } from "../../input/index.ts";

/** The first part of a file, unpacked. */
export interface Head {
  readonly bytes: Uint8Array;
  /** the whole file fits into `bytes` */
  readonly isWhole: boolean;
  /** size of the file as it lies on disk */
  readonly fileSize: number;
  /** bytes on disk that were read for `bytes` */
  readonly consumed: number;
}

/**
 * Reads up to `limit` bytes (after unpacking) from the start of a file.
 *
 * @throws InputError where there is no such file, it is a folder or anything else that is not a file, it is empty, or
 *   it claims to be gzipped and is not
 */
export async function readHead(file: string, gzip: boolean, limit = 1 << 18): Promise<Head> {
  const handle = await open(file, "r").catch((cause: NodeJS.ErrnoException) => {
    throw unreadable(file, cause);
  });
  try {
    const facts = await handle.stat();
    if (facts.isDirectory()) throw unreadable(file, Object.assign(new Error(), { code: "EISDIR" }));
    if (!facts.isFile()) throw new InputError({ file }, "is not an ordinary file", "copy the log to a file first");
    if (facts.size === 0) throw new InputError({ file }, "the file is empty", "check that the log was copied whole");
    const packed = await readStart(handle, Math.min(limit, facts.size));
    if (!gzip) {
      return { bytes: packed, isWhole: packed.length >= facts.size, fileSize: facts.size, consumed: packed.length };
    }
    if (packed[0] !== 0x1f || packed[1] !== 0x8b) {
      throw new InputError({ file }, "is not gzip although its name ends in .gz", "rename it, or unpack it again");
    }
    const { bytes, isWhole } = await unpackStart(packed, packed.length >= facts.size, limit);
    return { bytes, isWhole, fileSize: facts.size, consumed: packed.length };
  } finally {
    await handle.close();
  }
}

async function readStart(handle: FileHandle, length: number): Promise<Uint8Array> {
  const bytes = new Uint8Array(length);
  let filled = 0;
  while (filled < length) {
    const { bytesRead } = await handle.read(bytes, filled, length - filled, filled);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return bytes.subarray(0, filled);
}

/** Unpacks what can be unpacked: the packed bytes may be cut in the middle, and a damaged file gives what it has. */
function unpackStart(
  packed: Uint8Array,
  isAll: boolean,
  limit: number,
): Promise<{ bytes: Uint8Array; isWhole: boolean }> {
  return new Promise((resolve) => {
    const parts: Uint8Array[] = [];
    let length = 0;
    let isDone = false;
    const gunzip = createGunzip();
    const finish = (isWhole: boolean) => {
      if (isDone) return;
      isDone = true;
      gunzip.destroy();
      resolve({ bytes: Buffer.concat(parts).subarray(0, limit), isWhole: isWhole && length <= limit });
    };
    gunzip.on("data", (part: Uint8Array) => {
      parts.push(part);
      length += part.length;
      if (length > limit) finish(false);
    });
    gunzip.on("end", () => finish(isAll));
    gunzip.on("error", () => finish(false));
    gunzip.end(packed);
  });
}

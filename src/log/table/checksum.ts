import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { open } from "node:fs/promises";
import { Writable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGunzip } from "node:zlib";
import { InputError, unreadable } from "../../input/index.ts";

/**
 * SHA-256 of a file's bytes, lower-case hex, in constant memory. A gzipped file is unpacked on the way to make sure
 * that it is whole: the table engine stops without a word where a gzip stream is cut.
 *
 * @throws InputError where the file cannot be read, or its gzip data is cut short or damaged
 */
export async function checksum(file: string, { gzip = false } = {}): Promise<string> {
  const hash = createHash("sha256");
  const nowhere = new Writable({ write: (_chunk, _encoding, done) => done() });
  const tap = async function* (bytes: AsyncIterable<Buffer>) {
    for await (const part of bytes) {
      hash.update(part);
      yield part;
    }
  };
  try {
    if (gzip)
      await pipeline(
        createReadStream(file, { highWaterMark: PART }),
        tap,
        createGunzip({ chunkSize: 1 << 18 }),
        nowhere,
      );
    else await eachPart(file, (part) => hash.update(part));
  } catch (cause) {
    throw explain(file, cause as NodeJS.ErrnoException);
  }
  return hash.digest("hex");
}

/** Bytes read at a time. */
const PART = 1 << 20;

/** Every part in the same memory: to ask for new memory each time would take longer than the sum. */
async function eachPart(file: string, use: (part: Buffer) => void): Promise<void> {
  const buffer = Buffer.allocUnsafe(PART);
  const handle = await open(file);
  try {
    for (;;) {
      const { bytesRead } = await handle.read(buffer, 0, PART);
      if (bytesRead === 0) return;
      use(buffer.subarray(0, bytesRead));
    }
  } finally {
    await handle.close();
  }
}

function explain(file: string, cause: NodeJS.ErrnoException): InputError {
  if (cause.code === "Z_BUF_ERROR") {
    return new InputError({ file }, "the gzip data is cut short", "copy the log again: its end is missing", { cause });
  }
  if (cause.code?.startsWith("Z_")) {
    return new InputError({ file }, "the gzip data is damaged", "copy the log again", { cause });
  }
  return unreadable(file, cause);
}

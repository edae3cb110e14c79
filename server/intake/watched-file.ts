import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { basename } from "node:path";
import type { Evidence } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import type { FileSource } from "./index.ts";

/** What is reported as a file is read: its name, bytes read, bytes in all. */
export type OnRead = (name: string, read: number, size: number) => void;

/** A file that is read once, and whose digest is then known without reading it again. */
export interface WatchedFile {
  readonly source: FileSource;
  /** Name and digest of the whole file. Only to be asked for once it has been read. */
  trace(): Evidence["files"][number];
}

/** Opens a file for one reading. @throws {Fault} `no-such-file` */
export async function watchFile(path: string, onRead?: OnRead): Promise<WatchedFile> {
  const found = await stat(path).catch(() => null);
  if (found === null) throw new Fault("no-such-file", `There is no file ${path}.`);
  if (!found.isFile()) throw new Fault("no-such-file", `${path} is not a file.`);
  const chunks = createReadStream(path, { highWaterMark: 1 << 18 }) as AsyncIterable<Buffer>;
  return watchChunks(basename(path), chunks, (name, read) => onRead?.(name, read, found.size));
}

/** Watches bytes that come in pieces, such as a request's body. */
export function watchChunks(
  name: string,
  pieces: AsyncIterable<Uint8Array>,
  onRead?: (name: string, read: number) => void,
): WatchedFile {
  const hash = createHash("sha256");
  let sha256: string | null = null;
  async function* chunks(): AsyncGenerator<Uint8Array> {
    let read = 0;
    for await (const chunk of pieces) {
      hash.update(chunk);
      read += chunk.length;
      onRead?.(name, read);
      yield chunk;
    }
    sha256 = hash.digest("hex");
  }
  return {
    source: { name, chunks: chunks() },
    trace() {
      if (sha256 === null) throw new Error(`${name} has not been read to its end`);
      return { name, sha256 };
    },
  };
}

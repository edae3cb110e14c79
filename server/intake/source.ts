import { createReadStream, statSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { refuse } from "../../engine/index.ts";

/** A file: a path, or bytes with a name for messages. */
export type FileSource = string | { readonly name: string; readonly chunks: AsyncIterable<Uint8Array> };

export const nameOf = (source: FileSource): string => (typeof source === "string" ? basename(source) : source.name);

/** The bytes of a file as they come; nothing is held. @throws {InputError} no such file */
export function chunksOf(source: FileSource): AsyncIterable<Uint8Array> {
  if (typeof source !== "string") return source.chunks;
  checkFile(source);
  return createReadStream(source, { highWaterMark: 1 << 18 });
}

/** The whole of a file that has to be held at once. @throws {InputError} more bytes than `most` */
export async function bytesOf(source: FileSource, most: number): Promise<Buffer> {
  if (typeof source === "string") {
    checkFile(source);
    if (statSync(source).size > most)
      refuse(nameOf(source), `${statSync(source).size} bytes`, `a file of at most ${most} bytes`);
    return readFile(source);
  }
  const parts: Uint8Array[] = [];
  let size = 0;
  for await (const part of source.chunks) {
    size += part.length;
    if (size > most) refuse(source.name, `more than ${most} bytes`, `a file of at most ${most} bytes`);
    parts.push(part);
  }
  return Buffer.concat(parts);
}

function checkFile(path: string): void {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) refuse(basename(path), "no such file", "the path of a file that can be read");
  if (!found!.isFile()) refuse(basename(path), "not a file", "the path of a file that can be read");
}

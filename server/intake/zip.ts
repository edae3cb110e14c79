import { inflateRawSync } from "node:zlib";

/** A file in a ZIP file, still packed. */
export interface Entry {
  readonly path: string;
  readonly method: number;
  /** Bytes that the file says it unpacks to: the reader makes room for them. */
  readonly stated: number;
  readonly packed: Buffer;
}

/** The files in a ZIP file, still packed; `null` if it is none. */
export function entriesOf(bytes: Buffer): readonly Entry[] | null {
  let end = bytes.length - 22;
  while (end >= 0 && end >= bytes.length - 22 - 65535 && bytes.readUInt32LE(end) !== 0x06054b50) end--;
  if (end < 0 || bytes.readUInt32LE(end) !== 0x06054b50) return null;
  const entries: Entry[] = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left--) {
    if (at + 46 > bytes.length || bytes.readUInt32LE(at) !== 0x02014b50) return null;
    const nameLength = bytes.readUInt16LE(at + 28);
    const local = bytes.readUInt32LE(at + 42);
    if (local + 30 > bytes.length || bytes.readUInt32LE(local) !== 0x04034b50) return null;
    const from = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    entries.push({
      path: bytes.toString("utf8", at + 46, at + 46 + nameLength),
      method: bytes.readUInt16LE(at + 10),
      stated: bytes.readUInt32LE(at + 24),
      packed: bytes.subarray(from, from + bytes.readUInt32LE(at + 20)),
    });
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return entries;
}

/** Unpacks a file. @param most bytes that it may have */
export function unpack({ method, packed }: Entry, most: number): Buffer | "too large" | "damaged" {
  if (method === 0) return packed.length > most ? "too large" : packed;
  if (method !== 8) return "damaged";
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, most) });
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE" ? "too large" : "damaged";
  }
}

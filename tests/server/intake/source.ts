import type { FileSource } from "../../../server/intake/index.ts";

/** A file from text or bytes, cut into pieces of `size` bytes, so that every seam is crossed somewhere. */
export function fileOf(name: string, content: string | Uint8Array, size = 7): FileSource {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  async function* pieces(): AsyncGenerator<Uint8Array> {
    for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
  }
  return { name, chunks: pieces() };
}

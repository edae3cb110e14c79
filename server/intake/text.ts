import { refuse } from "../../engine/index.ts";

/** What the text turned out to be encoded in. */
export interface Decoded {
  readonly text: AsyncIterable<string>;
  /** Filled while the text is read. */
  readonly notes: readonly string[];
}

/** Bytes that the encoding is told from. */
const DECIDED_FROM = 4096;

/**
 * Text from bytes, piece by piece: UTF-8, UTF-16 by its byte-order mark, or Windows-1252 if the first piece is not
 * UTF-8 (loggers write the degree sign so). A byte-order mark is taken off.
 *
 * @throws {InputError} while reading: bytes that are no text, or a spreadsheet under another name
 */
export function decode(chunks: AsyncIterable<Uint8Array>, name: string): Decoded {
  const notes: string[] = [];
  async function* read(): AsyncGenerator<string> {
    let decoder: TextDecoder | null = null;
    let bytes = 0;
    let pending: Uint8Array = new Uint8Array(0);
    for await (const chunk of chunks) {
      let part = chunk;
      if (decoder === null) {
        // Small first pieces would show neither a mark nor the headings, where the first degree sign stands.
        part = pending.length === 0 ? chunk : Buffer.concat([pending, chunk]);
        if (part.length < DECIDED_FROM) {
          pending = part;
          continue;
        }
        decoder = decoderFor(part, name, notes);
      }
      bytes += part.length;
      yield decoded(decoder, part, name, bytes);
    }
    decoder ??= decoderFor(pending, name, notes);
    if (bytes === 0 && pending.length > 0) yield decoded(decoder, pending, name, pending.length);
    yield decoded(decoder, undefined, name, bytes);
  }
  return { text: read(), notes };
}

function decoded(decoder: TextDecoder, part: Uint8Array | undefined, name: string, bytes: number): string {
  try {
    return part === undefined ? decoder.decode() : decoder.decode(part, { stream: true });
  } catch {
    return refuse(name, `bytes that are not ${decoder.encoding} before byte ${bytes}`, "text in UTF-8 throughout");
  }
}

/** The decoder that the first bytes of a text ask for. @throws {InputError} */
export function decoderFor(first: Uint8Array, name: string, notes: string[]): TextDecoder {
  if (first[0] === 0x50 && first[1] === 0x4b && first[2] === 3 && first[3] === 4) {
    refuse(name, "a spreadsheet or another packed file", "text, or a name that ends in .xlsx");
  }
  if (first[0] === 0xff && first[1] === 0xfe) return new TextDecoder("utf-16le", { fatal: true });
  if (first[0] === 0xfe && first[1] === 0xff) return new TextDecoder("utf-16be", { fatal: true });
  // A logger that lost its power leaves a file that ends in them.
  if (first.subarray(0, first.findLastIndex((byte) => byte !== 0) + 1).includes(0))
    refuse(name, "bytes of value 0", "text, not a binary file");
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(first, { stream: true });
    return new TextDecoder("utf-8", { fatal: true });
  } catch {
    notes.push("not UTF-8: read as Windows-1252");
    return new TextDecoder("windows-1252");
  }
}

import { closeSync, constants, fstatSync, openSync, readSync } from "node:fs";
import { Fault } from "../errors.ts";
import { nameOf } from "./source.ts";
import { decoderFor } from "./text.ts";

/** What a file that another program writes to has become since it was last looked at. */
export interface Growth {
  /** Text that was added; after a restart, the whole of what is there now. */
  readonly text: string;
  /** Whether the file was cut or replaced: what was read of it before is no part of it. */
  readonly restarted: boolean;
  /** Whether it is there at all. */
  readonly there: boolean;
}

/** For reading alone; a pipe by that name is not waited for. */
const READ = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);
/** Bytes read at once: a long log is taken in pieces, so that whoever follows it can be asked to stop in between. */
const PIECE = 1 << 22;

/**
 * Follows a file that grows, by looking at it: read-only, never locked, opened anew each time, so that a logger may cut,
 * rename or replace it (notices of the file system do not come over a network share).
 */
export class GrowingFile {
  readonly #path: string;
  #offset = 0;
  #identity = "";
  #decoder: TextDecoder | null = null;
  /** Bytes the encoding is not told from yet. */
  #first: Uint8Array = new Uint8Array(0);
  readonly notes: string[] = [];

  constructor(path: string) {
    this.#path = path;
  }

  /**
   * @throws {InputError} what is no text
   * @throws {Fault} `no-such-file` for what is no file, or may not be read
   */
  look(): Growth {
    let descriptor: number;
    try {
      descriptor = openSync(this.#path, READ);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === "ENOENT") return { text: "", restarted: false, there: false };
      throw new Fault("no-such-file", `${this.#path} cannot be read: ${(error as Error).message}.`);
    }
    try {
      const found = fstatSync(descriptor);
      if (!found.isFile()) throw new Fault("no-such-file", `${this.#path} is not a file.`);
      const { size, ino, dev } = found;
      const identity = `${dev}/${ino}`;
      const restarted = this.#identity !== "" && (identity !== this.#identity || size < this.#offset);
      if (restarted) {
        this.#offset = 0;
        this.#decoder = null;
        this.#first = new Uint8Array(0);
      }
      this.#identity = identity;
      const bytes = Buffer.alloc(Math.min(PIECE, Math.max(0, size - this.#offset)));
      const read = bytes.length === 0 ? 0 : readSync(descriptor, bytes, 0, bytes.length, this.#offset);
      this.#offset += read;
      return { text: this.#text(bytes.subarray(0, read)), restarted, there: true };
    } finally {
      closeSync(descriptor);
    }
  }

  #text(bytes: Uint8Array): string {
    if (this.#decoder !== null) return this.#decoder.decode(bytes, { stream: true });
    this.#first = Buffer.concat([this.#first, bytes]);
    // The headings, where the first degree sign stands, show the encoding: not before a line has ended.
    if (!this.#first.includes(10)) return "";
    this.#decoder = decoderFor(this.#first, nameOf(this.#path), this.notes);
    return this.#decoder.decode(this.#first, { stream: true });
  }
}

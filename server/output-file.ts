import { randomUUID } from "node:crypto";
import { constants } from "node:fs";
import { access, link, open, realpath, rename, rm, stat, writeFile, type FileHandle } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { Fault } from "./errors.ts";

/** What is written: as a whole, or in parts as they come. */
export type Content = string | Uint8Array | AsyncIterable<Uint8Array>;

/** A file to be written once its content is known. */
export interface OutputFile {
  /**
   * Puts the content in place, whole: a crash, or a content that fails on its way, leaves what was there before.
   *
   * @throws {Fault} `cannot-write`, or the content's own
   */
  write(content: Content): Promise<void>;
  /** Leaves everything as it was; after `write` it does nothing. */
  abandon(): Promise<void>;
}

export interface OutputOptions {
  /** Refuse a file that exists, with these words. */
  readonly unless?: string;
}

/**
 * Opens a file for an outcome that is still to come: what cannot be written is found out before the work, not after. The
 * content is written beside its place, synced and renamed into it.
 *
 * @param what what is written, for a fault: `The record`
 * @throws {Fault} `cannot-write`
 */
export async function openOutput(path: string, what: string, { unless }: OutputOptions = {}): Promise<OutputFile> {
  const failed = (reason: unknown): Fault =>
    new Fault(
      "cannot-write",
      `${what} cannot be written to ${path}: ${reason instanceof Error ? reason.message : String(reason)}`,
    );
  const found = await stat(path).catch(() => null);
  if (found?.isDirectory()) throw failed("it is a folder.");
  if (found !== null && unless !== undefined) throw failed(unless);
  // A terminal, a pipe or /dev/null takes what it is given; nothing can be renamed into its place.
  if (found !== null && !found.isFile()) return { write: (content) => written(path, content, failed), abandon };
  let part: string;
  let place: string;
  let file: FileHandle;
  try {
    // Through a link to the file that it leads to. A file made read-only stays as it is, though a rename would replace it.
    place = found === null ? path : await realpath(path);
    if (found !== null) await access(place, constants.W_OK);
    part = join(dirname(place), `.${basename(place)}.${randomUUID()}.part`);
    file = await open(part, "wx", found === null ? 0o666 : found.mode & 0o777);
  } catch (error) {
    throw failed(error);
  }
  let settled = false;
  const discard = async (): Promise<void> => {
    if (settled) return;
    settled = true;
    await file.close().catch(() => undefined);
    await rm(part, { force: true }).catch(() => undefined);
  };
  return {
    async write(content) {
      try {
        // Each part goes after the one before it.
        for await (const piece of partsOf(content)) await file.writeFile(piece);
        await file.sync();
        await file.close();
        // A link is not made over a file that came meanwhile; a rename is.
        if (unless === undefined) await rename(part, place);
        else await link(part, place).finally(() => rm(part, { force: true }));
        settled = true;
      } catch (error) {
        await discard();
        if (!ofTheSystem(error)) throw error;
        throw failed((error as NodeJS.ErrnoException).code === "EEXIST" && unless !== undefined ? unless : error);
      }
    },
    abandon: discard,
  };
}

const abandon = (): Promise<void> => Promise.resolve();

const written = (path: string, content: Content, failed: (reason: unknown) => Fault): Promise<void> =>
  writeFile(path, partsOf(content)).catch((error: unknown) => {
    throw ofTheSystem(error) ? failed(error) : error;
  });

/** As `openOutput`, for a file that is written only if it was asked for; `null` if it was not. */
export const openAsked = async (path: string | undefined, what: string): Promise<OutputFile | null> =>
  path === undefined ? null : openOutput(path, what);

/** What cannot be written, not what the content itself failed of. */
const ofTheSystem = (error: unknown): boolean =>
  error instanceof Error && "code" in error && "syscall" in error && !(error instanceof Fault);

const partsOf = (content: Content): Iterable<string | Uint8Array> | AsyncIterable<Uint8Array> =>
  typeof content === "string" || content instanceof Uint8Array ? [content] : content;

/** Does what needs several outputs, opened beforehand; those that were not written are left as they were. */
export async function withOutputs<T>(outputs: readonly (OutputFile | null)[], work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } finally {
    for (const output of outputs) await output?.abandon();
  }
}

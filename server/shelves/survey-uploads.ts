import type { Request } from "express";
import { LRUCache } from "lru-cache";
import { show } from "../../engine/index.ts";
import { Fault, refused } from "../errors.ts";
import { evaluateFiles, surveyedFrom, watchBytes, type EvaluatedFiles, type Surveyed } from "./surveys.ts";

/** Largest description and largest log that a request may have evaluated; longer ones are for the command line. */
export const LARGEST_DESCRIPTION = 1_000_000;
export const LARGEST_LOG = 20_000_000;
/** Evaluations of opened files that are kept, the latest. */
const KEPT = 16;

/** Evaluates files, `evaluateBrought` in a thread of its own. */
export type ReadsBrought = (files: readonly BroughtFile[], left: AbortSignal) => Promise<EvaluatedFiles>;

/** The surveys whose files a person opened: evaluated, and kept in memory under their digests until the server stops. */
export function openedSurveys(read: ReadsBrought): {
  open(request: Request, announced: AnnouncedFiles, left: AbortSignal): Promise<Surveyed>;
  list(): readonly Surveyed[];
  find(id: string): Surveyed | undefined;
} {
  const kept = new LRUCache<string, Surveyed>({ max: KEPT });
  return {
    async open(request, announced, left) {
      const surveyed = surveyedFrom(await read(await filesOf(request, announced), left));
      kept.set(surveyed.shown.id, surveyed);
      return surveyed;
    },
    list: () => [...kept.rvalues()].filter((surveyed) => surveyed !== undefined),
    find: (id) => kept.get(id),
  };
}

/** Name and size in bytes of each file of a request, in the order of their bytes. */
export interface AnnouncedFiles {
  readonly name: readonly string[];
  readonly size: readonly number[];
}

/** A file that a request brought. */
export interface BroughtFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Evaluates a survey from its files. @throws {Fault} no description among the files, or not the log that it names */
export async function evaluateBrought(files: readonly BroughtFile[]): Promise<EvaluatedFiles> {
  const [described, ...more] = files.filter(({ name }) => /\.json$/i.test(name));
  if (described === undefined || more.length > 0) {
    throw refused(
      "files",
      files.map(({ name }) => name).join(", "),
      "one description of a survey that ends in .json, and the log that it names",
    );
  }
  const others = files.filter((file) => file !== described);
  return evaluateFiles(null, watchBytes(described.name, described.bytes), (wanted) => {
    const named = wanted === undefined ? undefined : wanted.split(/[/\\]/).at(-1)!;
    const log =
      named === undefined ? (others.length === 1 ? others[0] : undefined) : others.find(({ name }) => name === named);
    if (log !== undefined) return watchBytes(log.name, log.bytes);
    const found =
      others.length === 0 ? "no file beside the description" : others.map(({ name }) => show(name)).join(", ");
    throw new Fault("bad-input", `The log of ${described.name} is missing.`, [
      {
        place: `${described.name}, log.file`,
        value: found,
        accepted:
          named === undefined
            ? "one CSV or XLSX file opened together with the description"
            : `${show(named)}, opened together with the description`,
      },
    ]);
  });
}

/**
 * The files of a request: their bytes one after the other, `?name=a.json&size=120&name=a.csv&size=9000` telling them
 * apart. Never more is held than is accepted.
 */
export async function filesOf(
  request: Request,
  { name: names, size: sizes }: AnnouncedFiles,
): Promise<readonly BroughtFile[]> {
  if (request.is("application/octet-stream") === false)
    throw refused(
      "",
      request.headers["content-type"],
      "the bytes of the files one after the other, sent as application/octet-stream",
    );
  if (names.length !== sizes.length)
    throw refused(
      "name, size",
      `${names.length} names, ${sizes.length} sizes`,
      "a name and a size in bytes for each file",
    );
  names.forEach((name, i) => {
    const most = /\.json$/i.test(name) ? LARGEST_DESCRIPTION : LARGEST_LOG;
    if (sizes[i]! > most)
      throw new Fault(
        "too-large",
        `${name} has ${sizes[i]} bytes; expected at most ${most}. The command line takes longer ones: trialband survey.`,
      );
  });
  const total = sizes.reduce((sum, size) => sum + size, 0);
  if (total > LARGEST_LOG + LARGEST_DESCRIPTION)
    throw new Fault(
      "too-large",
      `The files have ${total} bytes together; expected at most ${LARGEST_LOG + LARGEST_DESCRIPTION}.`,
    );
  const bytes = await bytesOf(request, total);
  let from = 0;
  return names.map((name, i) => ({ name, bytes: bytes.subarray(from, (from += sizes[i]!)) }));
}

/** @throws {Fault} more or fewer bytes than were announced */
export async function bytesOf(chunks: AsyncIterable<Uint8Array>, announced: number): Promise<Buffer> {
  const parts: Uint8Array[] = [];
  let read = 0;
  for await (const chunk of chunks) {
    read += chunk.length;
    if (read > announced) break;
    parts.push(chunk);
  }
  if (read !== announced)
    throw refused(
      "size",
      read > announced ? `more than ${announced} bytes` : `${read} bytes`,
      `${announced} bytes, as the sizes say`,
    );
  return Buffer.concat(parts);
}

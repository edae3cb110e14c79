import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, dirname, join, normalize } from "node:path";
import { Fault, refused } from "../errors.ts";
import type { BroughtFile } from "./survey-uploads.ts";

/** Folders below the one that is made for the files, so that `../survey/x.json` still lies within it. */
const DEEP = ["a", "b", "c", "d"];

/** The JSON object that a file holds; `null` for another file. */
export function documentIn({ name, bytes }: BroughtFile): Readonly<Record<string, unknown>> | null {
  if (!/\.json$/i.test(name)) return null;
  try {
    const value: unknown = JSON.parse(Buffer.from(bytes).toString("utf8"));
    return typeof value === "object" && value !== null && !Array.isArray(value)
      ? (value as Record<string, unknown>)
      : null;
  } catch {
    // Its own reader says what is wrong with it, by its name, if anything names it.
    return null;
  }
}

/**
 * Lays files that a request brought into a folder of their own, each where the document that names it looks for it, and
 * removes the folder when the work is done.
 *
 * @param start the file that names the others
 * @throws {Fault} a document that names a file outside the folder; and what the work throws, by the files' own names
 */
export async function withLaidFiles<T>(
  files: readonly BroughtFile[],
  start: BroughtFile,
  work: (path: string) => Promise<T>,
): Promise<T> {
  const root = await mkdtemp(join(tmpdir(), "trialband-files-"));
  try {
    const path = join(root, ...DEEP, basename(start.name));
    await lay(path, start, root);
    await layNamed(path, start, files, root, new Set([start]));
    return await work(path);
  } catch (error) {
    throw error instanceof Fault ? withoutFolder(error, root) : error;
  } finally {
    await rm(root, { recursive: true, force: true });
  }
}

const within = (path: string, root: string): boolean => normalize(path).startsWith(join(root, "/"));

async function lay(path: string, { bytes }: BroughtFile, root: string): Promise<void> {
  // A name that leads out of the folder is laid nowhere, so that the reader does not find it.
  if (!within(path, root)) return;
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, bytes);
}

/** Lays every file that a document names beside it, and those that these name in turn. */
async function layNamed(
  path: string,
  file: BroughtFile,
  files: readonly BroughtFile[],
  root: string,
  laid: ReadonlySet<BroughtFile>,
): Promise<void> {
  for (const text of textsIn(documentIn(file))) {
    const place = join(dirname(path), text);
    // No reader may be led to a file of this server.
    if (!within(place, root)) throw refused(file.name, text, "the name of a file among those that were sent");
    const wanted = text.split(/[/\\]/).at(-1)!;
    const found = files.find(({ name }) => basename(name) === wanted);
    if (found === undefined || laid.has(found)) continue;
    await lay(place, found, root);
    await layNamed(place, found, files, root, new Set([...laid, found]));
  }
}

/** Every text of a document that could be the name of a file. */
function textsIn(value: unknown): readonly string[] {
  if (typeof value === "string") return value.length < 300 ? [value] : [];
  if (Array.isArray(value)) return value.flatMap(textsIn);
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(textsIn) : [];
}

/** A reader of the page knows the names of files, not the folder of this server. */
function withoutFolder(fault: Fault, root: string): Fault {
  const plain = (text: string): string => text.replaceAll(join(root, ...DEEP, "/"), "").replaceAll(join(root, "/"), "");
  return new Fault(
    fault.code,
    plain(fault.message),
    fault.problems.map((problem) => ({
      ...problem,
      place: plain(problem.place),
      accepted: plain(problem.accepted),
    })),
  );
}

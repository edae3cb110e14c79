import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, dirname, join, normalize } from "node:path";
import { studyOf } from "../../models/index.ts";
import type { PreparedCalibration } from "../../viewer/api/calibrations.ts";
import { Fault, refused } from "../errors.ts";
import { loadCalibration, type LoadedCalibration } from "../intake/calibration.ts";
import { inFile } from "../intake/in-file.ts";
import { packageRoot } from "../package-root.ts";
import type { BroughtFile } from "./survey-uploads.ts";

/** Folders below the one that is made for the files, so that `../survey/x.json` still lies within it. */
const DEEP = ["a", "b", "c", "d"];

/** The calibration among the examples, for who has none yet. */
export const exampleCalibration = async (): Promise<PreparedCalibration> =>
  preparedFrom(await loadCalibration(join(packageRoot(), "examples/calibration/two-probes.json")));

/**
 * Reads a calibration from its files: the document and those that it names, wherever they lay. Each is laid where the
 * document, or a description beside it, looks for it.
 *
 * @throws {Fault} no calibration among the files, or more than one; and as `loadCalibration`, by the files' own names
 */
export async function evaluateBroughtCalibration(files: readonly BroughtFile[]): Promise<PreparedCalibration> {
  const documents = files.flatMap((file) => {
    const document = parsed(file);
    return document === null ? [] : [{ file, document }];
  });
  const calibrations = documents.filter(({ document }) => "points" in document && "instruments" in document);
  if (calibrations.length !== 1)
    throw refused(
      "files",
      files.map(({ name }) => name).join(", "),
      "one calibration that ends in .json, with the surveys, logs and certificate that it names",
    );
  const root = await mkdtemp(join(tmpdir(), "trialband-calibration-"));
  try {
    const [{ file, document }] = calibrations as [(typeof calibrations)[number]];
    const start = join(root, ...DEEP, basename(file.name));
    await lay(start, file, root);
    await layNamed(start, document, files, root, new Set([file]));
    return preparedFrom(await loadCalibration(start));
  } catch (error) {
    throw error instanceof Fault ? withoutFolder(error, root) : error;
  } finally {
    await rm(root, { recursive: true, force: true });
  }
}

/** The JSON object that a file holds; `null` for another file. */
function parsed({ name, bytes }: BroughtFile): Readonly<Record<string, unknown>> | null {
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

async function lay(path: string, { bytes }: BroughtFile, root: string): Promise<void> {
  // A name that leads out of the folder is laid nowhere, so that the reader does not find it.
  if (!normalize(path).startsWith(join(root, "/"))) return;
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, bytes);
}

/** Lays every file that a document names beside it, and those that these name in turn. */
async function layNamed(
  path: string,
  document: unknown,
  files: readonly BroughtFile[],
  root: string,
  laid: ReadonlySet<BroughtFile>,
): Promise<void> {
  for (const text of textsIn(document)) {
    const wanted = text.split(/[/\\]/).at(-1)!;
    const found = files.find(({ name }) => basename(name) === wanted);
    if (found === undefined || laid.has(found)) continue;
    const place = join(dirname(path), text);
    await lay(place, found, root);
    await layNamed(place, parsed(found), files, root, new Set([...laid, found]));
  }
}

/** Every text of a document that could be the name of a file. */
function textsIn(value: unknown): readonly string[] {
  if (typeof value === "string") return /\.\w{2,5}$/.test(value) && value.length < 300 ? [value] : [];
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

async function preparedFrom(loaded: LoadedCalibration): Promise<PreparedCalibration> {
  const { calibration, reference, overdue, files } = loaded;
  const studies = await inFile("", () => calibration.instruments.map(({ id }) => studyOf(calibration, id)));
  return {
    title: calibration.title,
    laboratory: calibration.laboratory ?? null,
    calibration: calibration as unknown as Readonly<Record<string, unknown>>,
    reference: reference === null ? null : { ...reference },
    overdue,
    files,
    instruments: calibration.instruments.map(({ id, description }, i) => ({
      id,
      description: description ?? null,
      study: studies[i] as unknown as Readonly<Record<string, unknown>>,
    })),
  };
}

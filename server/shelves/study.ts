import { readFile, stat } from "node:fs/promises";
import { readStudy, show, type Study } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { bundleModule } from "./bundle.ts";
import { loadModel, referTo, type ModelReference } from "./model.ts";

/** A study with the model it names found, ready to run on any thread. */
export interface LoadedStudy {
  readonly study: Study;
  readonly reference: ModelReference;
}

/** What the command line may set in place of what the study says. */
export interface Overrides {
  readonly seed?: string;
  readonly trials?: number | "adaptive";
}

/** Largest study file that is read. */
const LARGEST = 16 * 1024 * 1024;

/**
 * Reads a study from a file: JSON, or a TypeScript module that exports one by `defineStudy`.
 *
 * @throws {Fault} a file that is missing, too large or not JSON
 * @throws {InputError} a document that is no study
 */
export async function loadStudyFile(path: string, overrides: Overrides = {}): Promise<LoadedStudy> {
  if (/\.(ts|mts|js|mjs)$/.test(path)) {
    const bundle = await bundleModule(path);
    const module = (await import(bundle.url)) as { default?: { study?: unknown } };
    const document = module.default?.study;
    if (document === undefined) throw new Fault("bad-input", `${path} has no default export made by defineStudy.`);
    const study = readStudy({ ...(document as object), ...overrides });
    const reference = { kind: "module", parameters: study.parameters ?? {}, ...bundle } as const;
    await loadModel(reference);
    return { study, reference };
  }
  const { size } = await stat(path).catch(() => {
    throw new Fault("no-such-file", `There is no file ${path}.`);
  });
  if (size > LARGEST) throw new Fault("too-large", `${path} has ${size} bytes; accepted are at most ${LARGEST}.`);
  return loadStudyDocument(await parseJson(await readFile(path, "utf8"), path), path, overrides);
}

/** Reads a study that is at hand. `from` as in `referTo`. */
export async function loadStudyDocument(
  document: unknown,
  from: string | null,
  overrides: Overrides = {},
): Promise<LoadedStudy> {
  if (typeof document !== "object" || document === null || Array.isArray(document)) {
    throw new Fault("bad-input", "The document is not a study.", [
      { place: "", value: show(document), accepted: "an object with title, model and inputs" },
    ]);
  }
  const study = readStudy({ ...document, ...overrides });
  const reference = await referTo(study.model, study.parameters ?? {}, from);
  // Found out now, not on a worker: an unknown model or a wrong parameter.
  await loadModel(reference);
  return { study, reference };
}

/** Parses JSON; a fault is told with its line and column. @throws {Fault} `not-json` */
export async function parseJson(text: string, name: string): Promise<unknown> {
  // A byte-order mark is no fault of the person's.
  const plain = text.replace(/^\uFEFF/, "");
  try {
    return JSON.parse(plain);
  } catch (error) {
    const place = await jsonFault(plain);
    const message = place?.text ?? (error instanceof Error ? error.message : String(error));
    const where = place === undefined ? "" : ` (line ${place.line}, column ${place.column})`;
    throw new Fault("not-json", `${name} is not JSON${where}: ${message}`);
  }
}

/** Where JSON goes wrong, by a parser that tells; JSON.parse does not always. */
async function jsonFault(text: string): Promise<{ line: number; column: number; text: string } | undefined> {
  const { transform } = await import("esbuild");
  const failure = await transform(text, { loader: "json", logLevel: "silent" }).then(
    () => undefined,
    (error: unknown) => error,
  );
  const first = (
    failure as { errors?: { text: string; location: { line: number; column: number } | null }[] } | undefined
  )?.errors?.[0];
  return first?.location
    ? { line: first.location.line, column: first.location.column + 1, text: first.text }
    : undefined;
}

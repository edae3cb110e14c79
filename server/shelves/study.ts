import { dirname, resolve } from "node:path";
import { readStudy, show, type Model, type Study, type Prepared } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { parseJson } from "../intake/json.ts";
import { readNamed } from "../intake/named-file.ts";
import { bundleModule } from "./bundle.ts";
import { isModelPath, loadModel, referTo, type ModelReference } from "./model.ts";

/** A study, and where any thread finds its model: what is kept of a study that runs. */
export interface KeptStudy {
  readonly study: Study;
  readonly reference: ModelReference;
}

/** A study with the model it names, loaded. */
export interface LoadedStudy extends KeptStudy {
  readonly model: Model;
  /** Tied to its model, if that was done before: of many inputs it takes a twentieth of a second. */
  readonly prepared?: Prepared;
}

/** What the command line may set in place of the study's own values. */
export interface Overrides {
  readonly seed?: string;
  readonly trials?: number | "adaptive";
  readonly generator?: Study["generator"];
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
    return { study, reference, model: await loadModel(reference) };
  }
  return loadStudyDocument(parseJson(await readNamed(path, LARGEST), path), path, overrides);
}

/** Whether a study's file brings a model of its own, which is code: such a study is loaded in a thread of its own. */
export const bringsOwnModel = async (path: string): Promise<boolean> => (await ownModelOf(path)) !== null;

/** The file of one's own in which a study's model stands, or the file itself if it is no JSON; `null` for a registered model. */
export async function ownModelOf(path: string): Promise<string | null> {
  if (isModelPath(path)) return path;
  const { model } = (parseJson(await readNamed(path, LARGEST), path) ?? {}) as { readonly model?: unknown };
  return typeof model === "string" && isModelPath(model) ? resolve(dirname(path), model) : null;
}

/** Reads a file that is a study, or a model alone. @throws {Fault | InputError} as `loadStudyFile` */
export async function loadStudyOrModel(path: string): Promise<{ readonly model: Model; readonly study: Study | null }> {
  if (!isModelPath(path)) return loadStudyFile(path);
  const bundle = await bundleModule(path);
  const module = (await import(bundle.url)) as { default?: { study?: unknown } };
  if (module.default?.study !== undefined) return loadStudyFile(path);
  return { model: await loadModel({ kind: "module", url: bundle.url, parameters: {} }), study: null };
}

/** Reads a study from its document. `from` as in `referTo`. */
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
  return { study, reference, model: await loadModel(reference) };
}

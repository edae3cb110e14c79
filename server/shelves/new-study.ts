import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import { InputError, prepare, readStudy, refuse, show, type Statement } from "../../engine/index.ts";
import { everyInput } from "../../engine/internal.ts";
import { Fault } from "../errors.ts";
import { isModelPath, loadModel, referTo } from "./model.ts";
import type { LoadedStudy } from "./study.ts";
import { parseJson } from "../intake/json.ts";
import { readNamed } from "../intake/named-file.ts";
import { openOutput } from "../output-file.ts";

/** A study as it stands in its file. */
export interface StudyFile {
  readonly path: string;
  readonly document: Readonly<Record<string, unknown>>;
  readonly inputs: Readonly<Record<string, unknown>>;
}

/** Reads the study that evaluated statements go into. @throws {Fault} no such file, or no study */
export async function openStudy(path: string): Promise<StudyFile> {
  const bytes = await readNamed(path);
  const document = parseJson(bytes, path);
  const { inputs } = (document ?? {}) as Record<string, unknown>;
  if (typeof inputs !== "object" || inputs === null || Array.isArray(inputs)) {
    throw new Fault("bad-input", `${path} is not a study.`, [
      { place: "inputs", value: show(inputs), accepted: "an object with a statement for each input" },
    ]);
  }
  return { path, document: document as Record<string, unknown>, inputs: inputs as Record<string, unknown> };
}

/** What an evaluation puts into a study. */
export interface Replacement {
  readonly statements: Readonly<Record<string, Statement>>;
  /** The bath that the evaluation names, for a study that names none. */
  readonly bath?: Readonly<Record<string, unknown>> | undefined;
}

/** A study with some inputs replaced, ready to be filed or run. */
export interface NewStudy {
  readonly document: Readonly<Record<string, unknown>>;
  readonly loaded: LoadedStudy;
  /** Statements that were only offered, and that the study's model has no input for: they are not in the study. */
  readonly dropped: readonly string[];
}

/**
 * The study with the statements in place of its own, and everything else as it was. It is checked whole, so that no
 * study is filed that would not run.
 *
 * @param to where it will be filed; paths within it are rewritten so that they lead to the same files
 * @throws {InputError} an input that the study's model does not have
 */
export async function newStudy(
  { path, document, inputs }: StudyFile,
  { statements: given, bath }: Replacement,
  to: string | null,
): Promise<NewStudy> {
  const { model: named, parameters } = document;
  if (typeof named !== "string")
    return refuse("model", named, "the id of a registered model, or a path to a file with a model");
  const reference = await referTo(named, (parameters ?? {}) as Record<string, unknown>, path);
  const model = await loadModel(reference);
  const dropped = Object.keys(given).filter((name) => OFFERED.has(name) && !Object.hasOwn(everyInput(model), name));
  const statements = Object.fromEntries(Object.entries(given).filter(([name]) => !dropped.includes(name)));
  const unknown = Object.keys(statements).filter((name) => !Object.hasOwn(everyInput(model), name));
  if (unknown.length > 0) {
    throw new InputError(
      unknown.map((name) => ({
        place: `inputs.${name}`,
        value: show(statements[name]!.distribution),
        accepted: `an input of model ${model.id} (${Object.keys(everyInput(model)).join(", ")}): --as ${name}=INPUT gives it to that one`,
      })),
    );
  }
  const filed = to ?? path;
  const changed = {
    ...rebased(document, path, filed),
    ...(bath !== undefined && document["bath"] === undefined && model.safety !== undefined ? { bath } : {}),
    ...stillNegligible(document, statements),
    inputs: { ...inputs, ...statements },
  };
  const study = readStudy(changed);
  prepare(model, study);
  return { document: changed, loaded: { study, reference, model }, dropped };
}

/** Inputs that an evaluation offers beside the one asked for: a model that has no such input goes without. */
const OFFERED: ReadonlySet<string> = new Set(["referenceInterpolation"]);

/** What was judged negligible and is stated now is negligible no more. */
function stillNegligible(
  { negligible }: StudyFile["document"],
  statements: Replacement["statements"],
): { readonly negligible?: Readonly<Record<string, unknown>> } {
  if (typeof negligible !== "object" || negligible === null) return {};
  return {
    negligible: Object.fromEntries(Object.entries(negligible).filter(([name]) => !Object.hasOwn(statements, name))),
  };
}

/** Paths of a document lead from its own folder: moved elsewhere, they have to lead on to the same files. */
function rebased(document: Readonly<Record<string, unknown>>, from: string, to: string): Record<string, unknown> {
  const moved = (path: string): string => {
    if (isAbsolute(path) || /^[a-z][a-z0-9+.-]+:/i.test(path)) return path;
    const found = relative(dirname(resolve(to)), resolve(dirname(from), path))
      .split(sep)
      .join("/");
    return found.startsWith(".") ? found : `./${found}`;
  };
  const { $schema, model } = document;
  return {
    ...document,
    ...(typeof $schema === "string" ? { $schema: moved($schema) } : {}),
    ...(typeof model === "string" && isModelPath(model) ? { model: moved(model) } : {}),
  };
}

/** Files a study. @throws {Fault} `cannot-write`, also where the file exists and `force` is not set */
export async function fileStudy(file: string, document: unknown, force: boolean): Promise<void> {
  const output = await openOutput(
    file,
    "The study",
    force ? {} : { unless: "it exists already; --force overwrites it." },
  );
  await output.write(`${JSON.stringify(document, null, 2)}\n`);
}

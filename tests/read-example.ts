import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { propagate, type Model, type RunRecord, readStudy } from "../engine/index.ts";
import { loadEquationReader, models } from "../models/index.ts";

await loadEquationReader();

const root = join(import.meta.dirname, "..", "examples");

const isStudy = (document: unknown): document is { model: string; inputs: object } =>
  typeof document === "object" && document !== null && "model" in document && "inputs" in document;

/** Every study in examples/, by its file's name. */
export const exampleStudies = (): { name: string; document: { model: string } }[] =>
  readdirSync(root, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".json") && !name.endsWith(".schema.json"))
    .map((name) => ({ name, document: JSON.parse(readFileSync(join(root, name), "utf8")) as unknown }))
    .filter((found): found is { name: string; document: { model: string; inputs: object } } => isStudy(found.document))
    .toSorted((a, b) => (a.name < b.name ? -1 : 1));

/** A study from examples/, as parsed JSON. */
export const readExample = (id: string): Record<string, unknown> & { model: string } =>
  JSON.parse(readFileSync(new URL(`../examples/${id}.json`, import.meta.url), "utf8"));

/** The model an example names. */
export function modelOf(document: { model: string; parameters?: unknown }): Model {
  const found = models.find(({ id }) => id === document.model);
  if (found === undefined) throw new Error(`no model ${document.model}`);
  return "build" in found ? found.build((document.parameters ?? {}) as Record<string, unknown>) : found;
}

/** Runs an example in this thread, with some of its fields replaced. */
export function runExample(id: string, changes: Record<string, unknown> = {}): RunRecord {
  const document = { ...readExample(id), ...changes };
  return propagate(modelOf(document), readStudy(document));
}

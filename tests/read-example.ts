import { readFileSync } from "node:fs";
import { propagate, type Model, type RunRecord } from "../engine/index.ts";
import { models } from "../models/index.ts";

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
  return propagate(modelOf(document), document);
}

import { readFileSync } from "node:fs";
import { dirname, isAbsolute, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { defineModel, show, type Model, type ModelFamily } from "../../engine/index.ts";
import { closestName, provideProgram, whereThrown, type Program } from "../../engine/internal.ts";
import { isScripted, models } from "../../models/index.ts";
import { Fault } from "../errors.ts";
import { ACCESSOR } from "../programs/module-access.ts";
import { builtPrograms } from "./built-programs.ts";
import { bundleModule } from "./bundle.ts";
import { inSourceTerms } from "./source-places.ts";

/** How a worker finds the same model: tasks carry this, never a function. */
export type ModelPlace =
  | { readonly kind: "registered"; readonly id: string; readonly parameters: Readonly<Record<string, unknown>> }
  | { readonly kind: "module"; readonly url: string; readonly parameters: Readonly<Record<string, unknown>> };

/** A model's place, and its digest and source if it is a user's own module. */
export type ModelReference =
  | Extract<ModelPlace, { kind: "registered" }>
  | (Extract<ModelPlace, { kind: "module" }> & { readonly digest: string; readonly source: string });

/** The place alone: a task that carried the source of a person's own model would take longer to send than to do. */
export const placeOf = (reference: ModelReference): ModelPlace =>
  reference.kind === "registered"
    ? reference
    : { kind: "module", url: reference.url, parameters: reference.parameters };

/** True if a study's `model` is a path rather than the id of a registered model. */
export const isModelPath = (model: string): boolean => /\.(ts|mts|js|mjs)$/.test(model);

/**
 * The reference for a study's `model` field.
 *
 * @param from file the study was read from; paths are relative to it. Without one (a study that came over the network)
 *   only registered models are taken, so that nobody runs code by sending a path.
 */
export async function referTo(
  model: string,
  parameters: Readonly<Record<string, unknown>>,
  from: string | null,
): Promise<ModelReference> {
  if (!isModelPath(model)) return { kind: "registered", id: model, parameters };
  if (from === null) {
    throw new Fault("no-such-model", `model: a path (${model}) is only taken from a study file, on the command line.`, [
      { place: "model", value: model, accepted: registeredIds() },
    ]);
  }
  const path = isAbsolute(model) ? model : resolve(dirname(from), model);
  return { kind: "module", parameters, ...(await bundleModule(path)) };
}

/** The model itself, on whichever thread this runs. @throws {Fault} */
export async function loadModel(reference: ModelPlace): Promise<Model> {
  const found = reference.kind === "registered" ? registered(reference.id) : await fromModule(reference.url);
  if ("build" in found) {
    await found.load?.();
    for (const part of found.parts ?? []) provideBuilt(part);
    const model = found.build(reference.parameters);
    // Loaded only for a typed equation.
    return isScripted(model) ? (await import("./compiled.ts")).compiled(model) : model;
  }
  const stray = Object.keys(reference.parameters)[0];
  if (stray !== undefined) {
    throw new Fault("bad-input", `Model ${found.id} takes no parameters.`, [
      {
        place: `parameters.${stray}`,
        value: JSON.stringify(reference.parameters[stray]) ?? "",
        accepted: `nothing: model ${found.id} takes no parameters`,
      },
    ]);
  }
  if (reference.kind === "registered") provideBuilt(found);
  return found;
}

/** Its program, which is read only once the model has run often. */
const provideBuilt = ({ evaluate, id }: Model): void =>
  provideProgram(evaluate, () => builtPrograms()?.models[id] ?? null, "fromFile");

function registered(id: string): Model | ModelFamily {
  const found = models.find((model) => model.id === id);
  if (found !== undefined) return found;
  throw new Fault("no-such-model", `There is no model ${JSON.stringify(id)}.`, [
    {
      place: "model",
      value: JSON.stringify(id),
      accepted: `${registeredIds()}${meantModel(id)}, or a path to a .ts file with a model of your own`,
    },
  ]);
}

function meantModel(id: string): string {
  const meant = closestName(
    id,
    models.map((model) => model.id),
  );
  return meant === null ? "" : ` (did you mean ${meant}?)`;
}

const registeredIds = (): string => `one of ${models.map(({ id }) => id).join(", ")}`;

async function fromModule(url: string): Promise<Model | ModelFamily> {
  const module = (await import(url).catch((error: unknown) => {
    throw new Fault(
      "model-does-not-load",
      `The model's file failed when it was loaded: ${error instanceof Error ? error.message : String(error)}${inSourceTerms(whereThrown(error))}`,
    );
  })) as Record<string, unknown>;
  for (const candidate of [
    module["default"],
    module["model"],
    (module["default"] as { model?: unknown } | undefined)?.model,
  ]) {
    if (typeof candidate !== "object" || candidate === null) continue;
    if ("build" in candidate) return candidate as ModelFamily;
    // Checked again here: a file may export a plain object that never went through defineModel.
    if ("evaluate" in candidate) {
      const model = defineModel(candidate as Model) as Model;
      await offerProgram(model, url, module);
      return model;
    }
  }
  throw noModelIn(module);
}

function noModelIn(module: Readonly<Record<string, unknown>>): Fault {
  const names = Object.keys(module).filter((name) => name !== ACCESSOR);
  const value =
    module["default"] === undefined
      ? names.length === 0
        ? "no export"
        : `the exports ${names.join(", ")}`
      : `a default export that is ${show(module["default"])}`;
  const accepted = "a model as the default export: export default defineModel({ … })";
  return new Fault("model-does-not-load", "The model's file exports no model.", [
    { place: "export default", value, accepted },
  ]);
}

/** States that a model of this module is to be had as a program, which takes less time a trial. */
async function offerProgram(model: Model, url: string, module: Readonly<Record<string, unknown>>): Promise<void> {
  const valueOf = module[ACCESSOR];
  if (typeof valueOf !== "function" || offered.has(model.evaluate)) return;
  offered.add(model.evaluate);
  // A parser: only for what has one of these models.
  const { moduleScope, programOfModel } = await import("../programs/index.ts");
  const read = (): Program | null => {
    const source = readFileSync(fileURLToPath(url), "utf8");
    return programOfModel(model, moduleScope({ source, valueOf: valueOf as (name: string) => unknown }));
  };
  provideProgram(model.evaluate, read, "fromSource");
}

const offered = new WeakSet<Model["evaluate"]>();

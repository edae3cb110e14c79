// What the build keeps of the registered models as programs, so that a run need not read their source.
import { join } from "node:path";
import type { Model, ModelFamily } from "../../engine/index.ts";
import type { Program, ProgramFunction } from "../../engine/internal.ts";
import type { algebra, equationFunctions } from "../../models/index.ts";
import { packageRoot } from "../package-root.ts";
import { functionsOf, moduleScope, programOfModel } from "../programs/index.ts";
import { ACCESSOR } from "../programs/module-access.ts";
import { storedText, type BuiltPrograms } from "../programs/stored.ts";
import { sourcesOfPrograms } from "./built-programs.ts";
import { bundleModule } from "./bundle.ts";

interface Models {
  readonly models: readonly (Model | ModelFamily)[];
  readonly algebra: typeof algebra;
  readonly equationFunctions: typeof equationFunctions;
  readonly [ACCESSOR]: (name: string) => unknown;
}

/** Reads the programs of all registered models that have one, and of the functions of equations. */
export async function makePrograms(
  load: (url: string) => Promise<unknown> = (url) => import(url),
): Promise<BuiltPrograms> {
  const { url, source } = await bundleModule(join(packageRoot(), "models/index.ts"));
  const module = (await load(url)) as Models;
  const scope = moduleScope({ source, valueOf: module[ACCESSOR] });
  const programs: Record<string, Program> = {};
  for (const model of module.models.flatMap((each) => ("build" in each ? (each.parts ?? []) : [each]))) {
    const program = programOfModel(model, scope);
    if (program !== null) programs[model.id] = program;
  }
  const calls = [...module.equationFunctions.values()].flatMap(({ name, operands }) =>
    operands.map((count) => ({ name: `${name}/${count}`, value: module.algebra[name], operands: count })),
  );
  calls.push({ name: "pow/2", value: module.algebra.pow, operands: 2 });
  const { found, tables } = functionsOf(calls, scope);
  const functions: ProgramFunction[] = [...found.values()];
  return {
    models: programs,
    algebra: { places: Object.fromEntries([...found.keys()].map((name, i) => [name, i])), functions, tables },
  };
}

/** The text of the file that a build keeps them in. */
export const programsText = async (): Promise<string> => storedText(await makePrograms(), sourcesOfPrograms());

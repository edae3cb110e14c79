import { runInThisContext } from "node:vm";
import { LRUCache } from "lru-cache";
import type { Model } from "../../engine/index.ts";
import { provideProgram, type Program } from "../../engine/internal.ts";
import type { ScriptedModel } from "../../models/index.ts";
import { builtPrograms } from "./built-programs.ts";

/**
 * Functions of the equations met last, by their scripts: a study that runs again finds its model's loop compiled and
 * optimised, as that of a registered model is.
 */
const known = new LRUCache<string, Model["evaluate"]>({ max: 100 });

/**
 * A model whose `evaluate` is compiled from its script, which was made from a checked tree: as fast as one written by
 * hand, with identical figures, bit for bit. Not by an import, whose module would stay in memory as long as the process.
 */
export function compiled(model: ScriptedModel): Model {
  const { script, functions, program, ...rest } = model;
  let evaluate = known.get(script);
  if (evaluate === undefined) {
    const make = runInThisContext(script) as (functions: ScriptedModel["functions"]) => Model["evaluate"];
    evaluate = make(functions);
    known.set(script, evaluate);
    const read = (): Program | null => {
      const built = builtPrograms();
      return built === null ? null : program(built.algebra);
    };
    provideProgram(evaluate, read, "fromFile");
  }
  return Object.freeze({ ...rest, evaluate });
}

import { prepare } from "../../../engine/index.ts";
import { Accumulation, assembleRecord, EXPLANATION_TRIALS, openComparison } from "../../../engine/internal.ts";
import { reportOf } from "../../errors.ts";
import { loadModel } from "../../shelves/model.ts";
import { fileRecord } from "./file-record.ts";
import type { AssemblyAnswer, AssemblyResults, AssemblyTask } from "./messages.ts";

/** Assembles records in the thread that assembles them. */
export default async function assemble(task: AssemblyTask): Promise<AssemblyAnswer> {
  try {
    return { ok: true, answer: await resultOf(task) };
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}

async function resultOf(task: AssemblyTask): Promise<AssemblyResults[AssemblyTask["kind"]]> {
  const { model, study } = task.recipe;
  const prepared = prepare(await loadModel(model), study);
  if (task.kind === "compare") {
    const comparison = openComparison(prepared, EXPLANATION_TRIALS);
    while (comparison.advance());
    return comparison.result();
  }
  const gathered = new Accumulation(prepared, undefined, task.gathered);
  return task.kind === "figures" ? assembleRecord(prepared, gathered, false) : fileRecord(prepared, gathered, task);
}

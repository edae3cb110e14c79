import { prepare, readStudy, type LinearBudget, type Model, type RunRecord } from "../../../engine/index.ts";
import { Accumulation, assembleRecord, openTrials } from "../../../engine/internal.ts";

/** The linear budgets of a study alone. */
export const budgetsOf = (model: Model, study: unknown): Readonly<Record<string, LinearBudget>> =>
  prepare(model, readStudy(study)).linear;

/** A run without the explanation of why the methods differ, which draws a hundred thousand trials of its own. */
export function runWithoutExplanation(model: Model, study: unknown): RunRecord {
  const prepared = prepare(model, readStudy(study));
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
  return assembleRecord(prepared, gathered, false);
}

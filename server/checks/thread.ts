import { reportOf } from "../errors.ts";
import { explorationOf } from "./exploration-of.ts";
import type { CheckAnswer, CheckTask } from "./messages.ts";
import { problemsOf } from "./problems-of.ts";

/** Checks a study's document in the thread of checks, or takes a quick look at it. */
export default async function check(task: CheckTask): Promise<CheckAnswer> {
  try {
    const { study, points } = JSON.parse(task) as { readonly study?: unknown; readonly points?: number };
    if (points !== undefined) return { ok: true, answer: await explorationOf(study, points) };
    return { ok: true, answer: { problems: await problemsOf(study), explored: null } };
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}

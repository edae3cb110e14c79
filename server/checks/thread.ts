import { reportOf } from "../errors.ts";
import type { CheckAnswer, CheckTask } from "./messages.ts";
import { problemsOf } from "./problems-of.ts";

/** Checks a study's document in the thread of checks. */
export default async function check(task: CheckTask): Promise<CheckAnswer> {
  try {
    const { study } = JSON.parse(task) as { readonly study?: unknown };
    return { ok: true, problems: await problemsOf(study) };
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}

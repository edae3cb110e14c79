import { reportOf } from "../errors.ts";
import { loadBudgetStudy } from "../intake/budget-study.ts";
import { evaluateBrought } from "../shelves/survey-uploads.ts";
import { watchBytes } from "../shelves/surveys.ts";
import type { ReadResults, ReadTask } from "./messages.ts";
import type { ThreadAnswer } from "./one-thread.ts";

/** Reads files in the thread that reads files. */
export default async function read(task: ReadTask): Promise<ThreadAnswer<ReadResults[ReadTask["kind"]]>> {
  try {
    return { ok: true, answer: await answerTo(task) };
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}

async function answerTo(task: ReadTask): Promise<ReadResults[ReadTask["kind"]]> {
  if (task.kind === "survey") return evaluateBrought(task.files);
  const { name, bytes } = task.file;
  return loadBudgetStudy(watchBytes(name, bytes), task.options);
}

import type { BudgetStudy } from "../intake/budget-study.ts";
import type { BudgetOptions } from "../intake/load.ts";
import type { BroughtFile } from "../shelves/survey-uploads.ts";
import type { EvaluatedFiles } from "../shelves/surveys.ts";
import type { ThreadAnswer } from "./one-thread.ts";
import type { Explored } from "./exploration-of.ts";

/**
 * A task of the thread of checks: `{ study }` as JSON, which is sent in a fraction of the time of an object, and `{ study,
 * points }` for a quick look.
 */
export type CheckTask = string;

/** What the thread of checks answers for a study's document. */
export type CheckAnswer = ThreadAnswer<Explored>;

/** A task of the thread that reads files. */
export type ReadTask =
  | { readonly kind: "budget"; readonly file: BroughtFile; readonly options: BudgetOptions }
  | { readonly kind: "survey"; readonly files: readonly BroughtFile[] };

/** What each task of the thread that reads files gives. */
export interface ReadResults {
  readonly budget: BudgetStudy;
  readonly survey: EvaluatedFiles;
}

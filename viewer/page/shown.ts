import { draftTitle } from "./drafts/title.ts";
import { messages } from "./language.ts";
import { words } from "./language.ts";
import type { WatchedLog } from "../api/watched-logs.ts";
import type { ListedEvidence } from "../api/evidence.ts";
import type { FormKind } from "../api/evidence-evaluation.ts";
import type { ListedSurvey } from "../api/surveys.ts";
import type { Run } from "./run.ts";
import type { Draft } from "./new-study/draft.ts";
import type { ShownEvidence } from "./evidence/frame.ts";
import type { ShownSurvey } from "./survey/evaluated.ts";

/** A study before it is run: one of the server's, or a file the reader opened. */
export interface ChosenStudy {
  /** `null` for a file. */
  readonly id: string | null;
  /** Name of the file, or `null`. */
  readonly file: string | null;
  readonly document: Readonly<Record<string, unknown>>;
}

/** A run on the sheet. */
export interface ShownRun {
  readonly kind: "run";
  readonly run: Run;
  /** Measurand shown; `null` for the first. */
  readonly measurand: string | null;
  /** Whether the event stream of a run that goes on is cut. */
  readonly cut: boolean;
}

/** What is on the sheet: one thing at a time. */
export type Shown =
  /** Nothing was asked for: the sheet says how to start. */
  | { readonly kind: "nothing" }
  /** What the address named when the page was loaded has not come yet. */
  | { readonly kind: "arriving" }
  | { readonly kind: "runs" }
  | { readonly kind: "workers" }
  | { readonly kind: "own"; readonly id: string | null }
  | { readonly kind: "laboratory" }
  | { readonly kind: "calibration"; readonly id: string | null }
  /** Plans, histories and comparisons. */
  | { readonly kind: "outlook" }
  | { readonly kind: "help"; readonly word: string | null }
  | { readonly kind: "study"; readonly study: ChosenStudy }
  | ShownRun
  /** The draft that the form was opened with; the form itself keeps what is typed since. */
  | { readonly kind: "draft"; readonly start: Draft }
  /** A budget table on its way to a study: another file, or `null` for the one that was there. */
  | { readonly kind: "import"; readonly file: File | null }
  | { readonly kind: "comparison"; readonly runs: readonly [Run, Run] }
  | { readonly kind: "surveys"; readonly surveys: readonly ListedSurvey[] }
  | { readonly kind: "survey"; readonly shown: ShownSurvey }
  | { readonly kind: "watch"; readonly logs: readonly WatchedLog[]; readonly id: string | null }
  | { readonly kind: "evidence"; readonly kept: readonly ListedEvidence[] }
  | { readonly kind: "evidence-form"; readonly form: FormKind; readonly shown: ShownEvidence }
  | { readonly kind: "survey-setup"; readonly shown: ShownEvidence };

export const NOTHING: Shown = { kind: "nothing" };

/** The run on the sheet, or `null` if something else is there. */
export const shownRun = (shown: Shown): Run | null => (shown.kind === "run" ? shown.run : null);

/** The study on the sheet, or `null` if something else is there. */
export const shownStudy = (shown: Shown): ChosenStudy | null => (shown.kind === "study" ? shown.study : null);

/** Kinds of which there is one thing each. */
const ALONE: ReadonlySet<Shown["kind"]> = new Set([
  "nothing",
  "arriving",
  "runs",
  "workers",
  "import",
  "laboratory",
  "outlook",
]);

/** Whether the same thing is still shown, although its contents may have changed. */
export function isSameThing(a: Shown, b: Shown): boolean {
  if (a === b) return true;
  if (a.kind === "run" && b.kind === "run") return a.run.id === b.run.id;
  if (a.kind === "study" && b.kind === "study") return a.study.id === b.study.id && a.study.file === b.study.file;
  if ((a.kind === "own" && b.kind === "own") || (a.kind === "calibration" && b.kind === "calibration"))
    return a.id === b.id;
  return ALONE.has(a.kind) && a.kind === b.kind;
}

/** The title of what is on the sheet, or `null` for the first screen. */
export function titleOf(shown: Shown): string | null {
  switch (shown.kind) {
    case "nothing":
    case "arriving":
      return null;
    case "runs":
      return words.frame.runs;
    case "workers":
      return words.frame.workers;
    case "own":
      return shown.id === null ? words.frame.ownStudies : words.frame.ownStudy;
    case "laboratory":
      return words.frame.laboratory;
    case "calibration":
      return words.frame.calibration;
    case "outlook":
      return words.frame.outlook;
    case "help":
      return words.frame.help;
    case "study":
      return String(shown.study.document.title ?? words.frame.study);
    case "run":
      return shown.run.title;
    case "draft":
      return draftTitle(shown.start.title);
    case "import":
      return words.frame.import;
    case "comparison":
      return messages.compared.kind;
    case "surveys":
      return messages.surveyPanels.all;
    case "watch":
      return words.frame.watch;
    case "evidence":
      return words.frame.evidence.all;
    case "evidence-form":
      return words.frame.evidence[shown.form];
    case "survey-setup":
      return words.frame.setUp;
    case "survey":
      return shown.shown.survey.evaluation.title;
  }
}

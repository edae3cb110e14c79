import type { BudgetStudy } from "../intake/budget-study.ts";
import type { BudgetOptions } from "../intake/load.ts";
import type { BroughtFile } from "../shelves/survey-uploads.ts";
import type { EvaluatedFiles, SurveyPaths } from "../shelves/surveys.ts";
import type { CalibrationContent } from "../store/calibrations.ts";
import type { EvidenceContent } from "../store/evidence.ts";
import type { PreparedCalibration } from "../../viewer/api/calibrations.ts";
import type { OpenedOutlook, OutlookKind } from "../../viewer/api/outlooks.ts";
import type { LogLook, LogSeries } from "../../viewer/api/evidence.ts";
import type { EvaluatedEvidence, EvidenceUse, FormKind, OpenedEvidence } from "../../viewer/api/evidence-evaluation.ts";
import type { ThreadAnswer } from "../one-thread.ts";
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
  | { readonly kind: "survey"; readonly files: readonly BroughtFile[] }
  | { readonly kind: "listedSurvey"; readonly id: string; readonly paths: SurveyPaths }
  | { readonly kind: "ownSurvey"; readonly content: EvidenceContent; readonly own: string; readonly bytes: BytesOf }
  | {
      readonly kind: "evidence";
      readonly form: FormKind;
      readonly content: Pick<EvidenceContent, "document" | "files">;
      readonly use: EvidenceUse;
      readonly bytes: BytesOf;
    }
  | { readonly kind: "evidenceFile"; readonly file: BroughtFile }
  | { readonly kind: "calibration"; readonly files: readonly BroughtFile[] | null }
  | { readonly kind: "keptCalibration"; readonly content: CalibrationContent }
  | { readonly kind: "outlook"; readonly of: readonly BroughtFile[] | OutlookKind }
  | { readonly kind: "looks"; readonly files: EvidenceContent["files"]; readonly bytes: BytesOf }
  | {
      readonly kind: "series";
      readonly content: Pick<EvidenceContent, "document" | "files">;
      readonly bytes: BytesOf;
    };

/** The bytes of kept files, by their digests. */
export type BytesOf = ReadonlyMap<string, Uint8Array>;

/** What each task of the thread that reads files gives. */
export interface ReadResults {
  readonly budget: BudgetStudy;
  readonly survey: EvaluatedFiles;
  readonly listedSurvey: EvaluatedFiles;
  readonly ownSurvey: EvaluatedFiles;
  readonly evidence: EvaluatedEvidence;
  readonly evidenceFile: OpenedEvidence;
  readonly calibration: PreparedCalibration;
  readonly keptCalibration: PreparedCalibration;
  readonly outlook: OpenedOutlook;
  readonly looks: readonly LogLook[];
  readonly series: LogSeries;
}

import type { Exploration, ExplorationSettings, Quantity } from "../../engine/index.ts";
import type { FaultReport } from "../errors.ts";
import type { SealedRecord } from "../record/seal.ts";
import type { TrialsToWrite, WrittenTrials } from "../export/trials/write-trials.ts";
import type { QueueSettings } from "../queue/settings.ts";
import type { Verification } from "../verify/verify.ts";
import type { NewStudy, Replacement, StudyFile } from "../shelves/new-study.ts";
import type { Overrides } from "../shelves/study.ts";

/** What a thread with a model of one's own does. Every message between it and the one that started it is in this file. */
export type ModelJob =
  | {
      readonly kind: "run";
      /** The study's file. */
      readonly path: string;
      /** The study, if it is not what stands in that file: paths in it lead from there. */
      readonly document?: unknown;
      readonly overrides: Overrides;
      readonly workers: number;
      readonly aloneFirst: number;
      /** Where other machines take the trials, in place of threads. */
      readonly queue?: QueueSettings;
    }
  | {
      readonly kind: "newStudy";
      readonly base: StudyFile;
      readonly replacement: Replacement;
      readonly to: string | null;
    }
  | {
      readonly kind: "explore";
      readonly path: string;
      readonly overrides: Overrides;
      readonly settings: ExplorationSettings;
    }
  | {
      readonly kind: "verify";
      readonly content: Uint8Array;
      readonly name: string;
      readonly signature?: unknown;
      readonly publicKey?: string;
      readonly workers: number;
    }
  | ({ readonly kind: "trials" } & TrialsToWrite)
  /** The file of a study or of a model. */
  | { readonly kind: "check"; readonly path: string };

/** What a model declares, and the title of the study that was found fit to run, if the file is one. */
export interface CheckedModel {
  readonly id: string;
  readonly title: string;
  readonly study: string | null;
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly measurands: Readonly<Record<string, Quantity>>;
}

/** What each job gives. */
export interface ModelResults {
  readonly run: SealedRecord;
  readonly newStudy: Pick<NewStudy, "document" | "dropped">;
  readonly explore: Exploration;
  readonly verify: Verification;
  readonly trials: WrittenTrials;
  readonly check: CheckedModel;
}

/** How far a job is. */
export interface ModelProgress {
  readonly trials: number;
  readonly limit: number;
  readonly adaptive: boolean;
}

export type FromThread =
  | { readonly progress: ModelProgress }
  | { /** What a person should know meanwhile. */ readonly notice: string }
  | { readonly result: ModelResults[keyof ModelResults] }
  | { readonly report: FaultReport };

/** Asks the thread to stop; one that does not is ended. */
export const CANCEL = "cancel";

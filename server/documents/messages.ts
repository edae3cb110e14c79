import type { ReportedRecord } from "../../engine/index.ts";
import type { CalibrationFound, CertificateForm } from "../../viewer/api/calibrations.ts";
import type { Language } from "../../viewer/present/messages/index.ts";
import type { Dossier } from "../dossier/make.ts";
import type { EvidenceFile } from "../dossier/contents.ts";
import type { CalibratedRecord } from "./calibration.ts";
import type { ThreadAnswer } from "../one-thread.ts";
import type { ReportForm } from "../report/document.ts";

/** A record that the server has, or the file of one; `name` is what a fault calls it. */
export type RecordSource =
  | { readonly record: ReportedRecord; readonly name: string }
  | { readonly file: Uint8Array; readonly name: string };

/** A task of the thread that makes documents of records. */
export type DocumentTask =
  | { readonly kind: "shown"; readonly file: Uint8Array }
  | { readonly kind: "report"; readonly of: RecordSource; readonly form: ReportForm }
  | { readonly kind: "workbook"; readonly of: RecordSource; readonly language: Language }
  | { readonly kind: "dsi"; readonly of: RecordSource }
  | { readonly kind: "calibrated"; readonly of: CalibratedRecord }
  | {
      readonly kind: "certificate";
      readonly of: CalibratedRecord;
      readonly form: Exclude<CertificateForm, "pdf">;
      readonly layout: ReportForm;
    }
  | { readonly kind: "evidence"; readonly file: Uint8Array }
  | {
      readonly kind: "dossier";
      readonly file: Uint8Array;
      /** The files of its evidence that are at hand, by their digests. */
      readonly evidence: ReadonlyMap<string, Uint8Array>;
      readonly today: Date;
    };

/** A document with what its file is named by. */
export interface NamedDocument<Content> {
  readonly content: Content;
  readonly title: string;
  readonly startedAt: string | null;
}

/** What each task gives. */
export interface DocumentResults {
  /** The answer of the route, as JSON: it is not read again where it is sent. */
  readonly shown: Uint8Array;
  readonly report: string;
  readonly workbook: NamedDocument<Uint8Array>;
  readonly dsi: NamedDocument<string>;
  readonly calibrated: CalibrationFound;
  readonly certificate: string;
  /** Files of evidence that a record names. */
  readonly evidence: readonly EvidenceFile[];
  readonly dossier: Dossier;
}

export type DocumentAnswer = ThreadAnswer<DocumentResults[DocumentTask["kind"]]>;

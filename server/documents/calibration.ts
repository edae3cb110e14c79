import { readStudy, type ReportedRecord, type Study } from "../../engine/index.ts";
import {
  calibrationResult,
  certificateFieldsOf,
  readCalibration,
  studyOf,
  type CertificateReference,
} from "../../models/index.ts";
import type { CalibrationFound, CertificateForm } from "../../viewer/api/calibrations.ts";
import { certificateOf, type Certificate } from "../../viewer/present/certificate/certificate.ts";
import { canonicalJson } from "../canonical.ts";
import { refused } from "../errors.ts";
import { dccOf } from "../export/certificate/dcc.ts";
import { certificateJson } from "../export/certificate/json.ts";
import { recordDigest } from "../record/open.ts";
import { certificateDocument } from "../report/certificate-document.ts";
import type { ReportForm } from "../report/document.ts";

/** One instrument of a calibration, and the record of the run of its study. */
export interface CalibratedRecord {
  readonly calibration: unknown;
  readonly reference: CertificateReference | null;
  readonly instrument: string;
  readonly record: ReportedRecord;
  /** Id of that run, as a refusal names it. */
  readonly run: string;
}

/** What a calibration found of one instrument. @throws {InputError | Fault} the run of another study, among others */
export function foundOf(of: CalibratedRecord): CalibrationFound {
  const certificate = certificateIn(of);
  return {
    result: certificate.result as unknown as Readonly<Record<string, unknown>>,
    lacking: certificate.lacking.fields.map(({ field }) => field),
    openPoints: [...certificate.lacking.points],
  };
}

/** Its certificate; a PDF is printed from the HTML. @throws {InputError | Fault} as `foundOf` */
export function certificateText(
  of: CalibratedRecord,
  form: Exclude<CertificateForm, "pdf">,
  layout: ReportForm,
): string {
  const certificate = certificateIn(of);
  if (form === "dcc") return dccOf(certificate, of.reference);
  return form === "json"
    ? certificateJson(certificate, of.reference)
    : certificateDocument(certificate, of.reference, layout);
}

function certificateIn({ calibration: stated, instrument, record, run }: CalibratedRecord): Certificate {
  const calibration = readCalibration(stated);
  requireOwn(instrument, studyOf(calibration, instrument), record, run);
  const result = calibrationResult(calibration, instrument, record);
  return certificateOf(calibration, certificateFieldsOf(calibration, instrument), result, record, recordDigest(record));
}

/** Refuses the run of another study: points, inputs and what they share must be those of the calibration. */
function requireOwn(instrument: string, study: unknown, record: ReportedRecord, run: string): void {
  const said = ({ parameters, inputs, correlations, conformity, coverage }: Study): string =>
    canonicalJson(JSON.parse(JSON.stringify({ parameters, inputs, correlations, conformity, coverage })));
  if (said(readStudy(study)) !== said(record.study as Study))
    throw refused("run", run, `the run of the study of ${instrument} in this calibration`);
}

import { z } from "zod";
import { readStudy, type ReportedRecord, type Study } from "../../engine/index.ts";
import {
  calibrationResult,
  certificateFieldsOf,
  readCalibration,
  studyOf,
  type CertificateReference,
} from "../../models/index.ts";
import {
  calibrationFilesQuery,
  calibrationFound,
  calibrationResultRequest,
  certificateRequest,
  preparedCalibration,
  type CalibrationFound,
  type CalibrationResultRequest,
  type PreparedCalibration,
} from "../../viewer/api/calibrations.ts";
import { certificateOf, type Certificate } from "../../viewer/present/certificate/certificate.ts";
import { canonicalJson } from "../canonical.ts";
import { refused } from "../errors.ts";
import { dccOf } from "../export/certificate/dcc.ts";
import { certificateJson } from "../export/certificate/json.ts";
import { bytes, json, type Described } from "../openapi/described.ts";
import { recordDigest } from "../record/open.ts";
import { certificateDocument, certificatePdf } from "../report/certificate-document.ts";
import { filesOf } from "../shelves/survey-uploads.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import { recordOf } from "./exports.ts";
import type { RouteRegistration } from "./route.ts";

const PREPARED = { description: "Studies to run, one an instrument.", content: json(preparedCalibration) };
const OPEN = {
  id: "openCalibration",
  summary: "Read a calibration from its files",
  description:
    "The document and every file that it names, their bytes one after the other. Nothing is run and nothing is kept.",
  query: calibrationFilesQuery,
  body: bytes,
  answers: { 200: PREPARED },
  faults: ["busy", "worker-lost"],
} satisfies Described;
const EXAMPLE = {
  id: "openExampleCalibration",
  summary: "Read the calibration among the examples",
  answers: { 200: PREPARED },
  faults: ["busy", "worker-lost"],
} satisfies Described;
const RESULT = {
  id: "getCalibrationResult",
  summary: "What a calibration found of one instrument, from the run of its study",
  body: json(calibrationResultRequest),
  answers: { 200: { description: "The results, and what the certificate lacks.", content: json(calibrationFound) } },
  faults: ["no-such-run", "not-finished"],
} satisfies Described;
const CERTIFICATE = {
  id: "makeCertificate",
  summary: "The certificate of one instrument",
  description: "HTML, PDF, the digital calibration certificate in XML, or JSON. A draft has no digital certificate.",
  body: json(certificateRequest),
  answers: {
    200: {
      description: "The document.",
      content: [
        { type: "text/html", schema: "text" },
        { type: "application/pdf", schema: "bytes" },
        { type: "application/xml", schema: "text" },
        json(z.record(z.string(), z.unknown())),
      ],
    },
  },
  faults: ["no-such-run", "not-finished", "no-such-file", "cannot-write"],
} satisfies Described;

const TYPES = {
  html: "text/html; charset=utf-8",
  pdf: "application/pdf",
  dcc: "application/xml",
  json: "application/json",
} as const;

/** Calibrations at several points: read, their results from the runs of their studies, certificates. */
export const calibrations: RouteRegistration = (router, { runs, reader }) => {
  router.post("/calibrations", "run", OPEN, async (request, response) => {
    const files = await filesOf(request, bodyOf(calibrationFilesQuery, request.query));
    response.json((await reader.calibration(files, leaving(response))) satisfies PreparedCalibration);
  });
  router.get("/calibrations/example", "read", EXAMPLE, async (_request, response) => {
    response.json((await reader.calibration(null, leaving(response))) satisfies PreparedCalibration);
  });
  router.post("/calibrations/result", "read", RESULT, async (request, response) => {
    const certificate = await foundOf(bodyOf(calibrationResultRequest, request.body));
    response.json({
      result: certificate.result as unknown as Readonly<Record<string, unknown>>,
      lacking: certificate.lacking.fields.map(({ field }) => field),
      openPoints: [...certificate.lacking.points],
    } satisfies CalibrationFound);
  });
  router.post("/calibrations/certificate", "read", CERTIFICATE, async (request, response) => {
    const asked = bodyOf(certificateRequest, request.body);
    const certificate = await foundOf(asked);
    const reference = asked.reference as CertificateReference | null;
    const { form, language } = asked;
    response.type(TYPES[form]);
    if (form === "dcc") response.send(dccOf(certificate, reference));
    else if (form === "json") response.send(certificateJson(certificate, reference));
    else if (form === "html") response.send(certificateDocument(certificate, reference, { language }));
    else response.send(Buffer.from(await certificatePdf(certificate, reference, { language }, leaving(response))));
  });

  async function foundOf({ calibration: stated, instrument, run }: CalibrationResultRequest): Promise<Certificate> {
    const calibration = readCalibration(stated);
    const study = studyOf(calibration, instrument);
    const record = await recordOf(runs, run);
    requireOwn(instrument, study, record, run);
    const result = calibrationResult(calibration, instrument, record);
    const fields = certificateFieldsOf(calibration, instrument);
    return certificateOf(calibration, fields, result, record, recordDigest(record));
  }
};

/** Refuses the run of another study: points, inputs and what they share must be those of the calibration. */
function requireOwn(instrument: string, study: unknown, record: ReportedRecord, run: string): void {
  const said = ({ parameters, inputs, correlations, conformity, coverage }: Study): string =>
    canonicalJson(JSON.parse(JSON.stringify({ parameters, inputs, correlations, conformity, coverage })));
  if (said(readStudy(study)) !== said(record.study as Study))
    throw refused("run", run, `the run of the study of ${instrument} in this calibration`);
}

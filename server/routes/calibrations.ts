import { z } from "zod";
import type { CertificateReference } from "../../models/index.ts";
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
import { bytes, json, type Described } from "../openapi/described.ts";
import { findChromium, printToPdf } from "../report/chromium.ts";
import { filesOf } from "../shelves/survey-uploads.ts";
import { bodyOf } from "./body.ts";
import { recordOf } from "./exports.ts";
import { leaving } from "./leaving.ts";
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
  faults: ["no-such-run", "not-finished", "busy", "worker-lost"],
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
  faults: ["no-such-run", "not-finished", "no-such-file", "cannot-write", "busy", "worker-lost"],
} satisfies Described;

const TYPES = {
  html: "text/html; charset=utf-8",
  pdf: "application/pdf",
  dcc: "application/xml",
  json: "application/json",
} as const;

/** Calibrations at several points: read, their results from the runs of their studies, certificates. */
export const calibrations: RouteRegistration = (router, { runs, reader, documents }) => {
  router.post("/calibrations", "run", OPEN, async (request, response) => {
    const files = await filesOf(request, bodyOf(calibrationFilesQuery, request.query));
    response.json((await reader.calibration(files, leaving(response))) satisfies PreparedCalibration);
  });
  router.get("/calibrations/example", "read", EXAMPLE, async (_request, response) => {
    response.json((await reader.calibration(null, leaving(response))) satisfies PreparedCalibration);
  });
  router.post("/calibrations/result", "read", RESULT, async (request, response) => {
    const of = await calibratedOf(bodyOf(calibrationResultRequest, request.body));
    response.json((await documents.calibrated({ of }, leaving(response))) satisfies CalibrationFound);
  });
  router.post("/calibrations/certificate", "read", CERTIFICATE, async (request, response) => {
    const asked = bodyOf(certificateRequest, request.body);
    const { form, language } = asked;
    const signal = leaving(response);
    const paper = form === "pdf" ? ({ paper: "A4" } as const) : {};
    const text = await documents.certificate(
      { of: await calibratedOf(asked), form: form === "pdf" ? "html" : form, layout: { language, ...paper } },
      signal,
    );
    response.type(TYPES[form]);
    response.send(form === "pdf" ? Buffer.from(await printToPdf(text, findChromium(), signal)) : text);
  });

  async function calibratedOf({ calibration, reference, instrument, run }: CalibrationResultRequest) {
    const record = await recordOf(runs, run);
    return { calibration, reference: reference as CertificateReference | null, instrument, run, record };
  }
};

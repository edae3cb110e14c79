import * as z from "zod";
import {
  calibrationSchema,
  certificateSchema,
  historySchema,
  immersionSchema,
  laboratoriesSchema,
  planSchema,
  readingsSchema,
  surveySchema,
  sweepDocumentSchema,
} from "../../models/index.ts";

/** What a laboratory may describe beside a study, by the option of `trialband schema` that prints its schema. */
export const EVIDENCE_SCHEMAS = {
  survey: surveySchema,
  readings: readingsSchema,
  immersion: immersionSchema,
  certificate: certificateSchema,
  calibration: calibrationSchema,
  sweep: sweepDocumentSchema,
  plan: planSchema,
  history: historySchema,
  equivalence: laboratoriesSchema,
} as const;

export type EvidenceKind = keyof typeof EVIDENCE_SCHEMAS;

const EVIDENCE_TITLES: Readonly<Record<EvidenceKind, string>> = {
  survey: "Trialband survey of a bath",
  readings: "Trialband comparison readings",
  immersion: "Trialband immersion check",
  certificate: "Trialband certificate of a reference",
  calibration: "Trialband calibration at several points",
  sweep: "Trialband study over one or two quantities",
  plan: "Trialband plan for a smaller uncertainty",
  history: "Trialband history of an instrument, a reference or a bath",
  equivalence: "Trialband comparison between laboratories",
};

/** The JSON Schema of a survey, of comparison readings, of an immersion check, of a certificate or of a calibration. */
export const evidenceSchemaText = (kind: EvidenceKind): string =>
  `${JSON.stringify({ title: EVIDENCE_TITLES[kind], ...z.toJSONSchema(EVIDENCE_SCHEMAS[kind], { io: "input" }) }, null, 2)}\n`;

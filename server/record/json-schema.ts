import * as z from "zod";
import { studySchema } from "../../engine/index.ts";
import { certificateSchema, immersionSchema, readingsSchema, surveySchema } from "../../models/index.ts";
import { recordSchema } from "../../engine/record/index.ts";

/** The JSON Schema of a study, for editors that complete and check as one types. */
export const schemaText = (): string =>
  `${JSON.stringify({ title: "Trialband study", ...z.toJSONSchema(studySchema, { io: "input" }) }, null, 2)}\n`;

/** The JSON Schema of a record. */
export const recordSchemaText = (): string =>
  `${JSON.stringify({ title: "Trialband record", ...z.toJSONSchema(recordSchema, { io: "input" }) }, null, 2)}\n`;

/** What a laboratory may describe beside a study, by the option of `trialband schema` that prints its schema. */
export const EVIDENCE_SCHEMAS = {
  survey: surveySchema,
  readings: readingsSchema,
  immersion: immersionSchema,
  certificate: certificateSchema,
} as const;

export type EvidenceKind = keyof typeof EVIDENCE_SCHEMAS;

const EVIDENCE_TITLES: Readonly<Record<EvidenceKind, string>> = {
  survey: "Trialband survey of a bath",
  readings: "Trialband comparison readings",
  immersion: "Trialband immersion check",
  certificate: "Trialband certificate of a reference",
};

/** The JSON Schema of a survey, of comparison readings, of an immersion check or of a certificate. */
export const evidenceSchemaText = (kind: EvidenceKind): string =>
  `${JSON.stringify({ title: EVIDENCE_TITLES[kind], ...z.toJSONSchema(EVIDENCE_SCHEMAS[kind], { io: "input" }) }, null, 2)}\n`;

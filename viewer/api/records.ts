import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { shownRecordSchema } from "../../engine/record/index.ts";
import { fault } from "./fault.ts";

/** `POST /api/records`: a filed record in today's format. */
export const shownRecord = z
  .strictObject({
    record: shownRecordSchema,
    altered: z.boolean().describe("Whether its digests show that it was altered after it was written"),
    seal: z.string().describe("What its digests say, as a sentence"),
  })
  .meta({ id: "ShownRecord" });
export type ShownRecord = Immutable<z.output<typeof shownRecord>>;

const LANGUAGES = ["en", "de"] as const;

/** The query of `GET /api/runs/:id/report`. */
export const reportQuery = z.strictObject(
  {
    language: z.enum(LANGUAGES, "en or de").optional().describe("Language of the report; without it the laboratory's"),
  },
  "nothing but language",
);

/** The query of `POST /api/records/report`. */
export const recordReportQuery = z.strictObject(
  {
    language: z.enum(LANGUAGES, "en or de").optional().describe("Language of the report; without it the laboratory's"),
    as: z.enum(["html", "pdf"], "html or pdf").default("html").describe("pdf needs a Chromium on the server's machine"),
    paper: z.enum(["A4", "Letter"], "A4 or Letter").default("A4").describe("Paper of a PDF"),
  },
  "nothing but language, as and paper",
);
export type RecordReportQuery = Immutable<z.output<typeof recordReportQuery>>;

const difference = z.strictObject({
  place: z.string().describe("Where in the record, by its fields"),
  filed: z.string(),
  repeated: z.string(),
});
/** A place at which a record is not what its repetition gives. */
export type RecordDifference = Immutable<z.output<typeof difference>>;

/** How the verification of a record ended. */
export const verificationOutcome = z
  .strictObject({
    outcome: z.enum(["bits", "agrees", "refused"]),
    reasons: z.array(z.string()),
    notes: z.array(z.string()),
    study: z.string().nullable().describe("SHA-256 of the study that was repeated"),
    figures: z.int(),
    differences: z.array(difference).describe("The first places that differ"),
  })
  .meta({ id: "VerificationOutcome" });
export type VerificationOutcome = Immutable<z.output<typeof verificationOutcome>>;

/** An event of `POST /api/records/verification`. The last is done or failed. */
export const verificationEvent = z
  .discriminatedUnion("type", [
    z.strictObject({
      type: z.literal("progress"),
      repetition: z.int().describe("Which repetition of the study goes on, from 1"),
      trials: z.int(),
      limit: z.int().describe("The most trials of this repetition"),
    }),
    z.strictObject({ type: z.literal("done"), verification: verificationOutcome }),
    z.strictObject({ type: z.literal("failed"), error: fault }),
  ])
  .meta({ id: "VerificationEvent" });
export type VerificationEvent = Immutable<z.output<typeof verificationEvent>>;

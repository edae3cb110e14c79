import { z } from "zod";
import { fileName } from "./file-name.ts";
import { several } from "./several.ts";
import { logOutlines } from "./log-outlines.ts";
import type { Immutable } from "../../engine/internal.ts";

/** What a laboratory describes beside a study, and the server keeps. */
export const evidenceKind = z.enum(["survey", "readings", "immersion", "certificate"]);
export type EvidenceKind = z.output<typeof evidenceKind>;

const digest = z.string().describe("SHA-256 of its bytes, in hexadecimal");

/** A file that the server keeps, by its digest: the same file sent twice is kept once. */
export const keptFile = z
  .strictObject({ name: z.string(), sha256: digest, size: z.int().describe("Bytes") })
  .meta({ id: "KeptFile" });
export type KeptFile = Immutable<z.output<typeof keptFile>>;

const listed = {
  id: z.string(),
  kind: evidenceKind,
  title: z.string(),
  changedAt: z.string().describe("ISO 8601, UTC"),
  version: z.int().describe("Latest version that was saved; 0 if there is only a draft"),
};

/** Evidence of one's own as a list shows it. */
export const listedEvidence = z.strictObject(listed).meta({ id: "ListedEvidence" });
export type ListedEvidence = Immutable<z.output<typeof listedEvidence>>;

/** `GET /api/evidence` */
export const evidenceList = z.array(listedEvidence);
export type EvidenceList = Immutable<z.output<typeof evidenceList>>;

/** A version that was saved; it never changes. */
export const evidenceVersion = z
  .strictObject({
    version: z.int(),
    at: z.string().describe("ISO 8601, UTC"),
    title: z.string(),
    digests: z.string().describe("Names its evaluation: the beginnings of the digests of its files"),
  })
  .meta({ id: "EvidenceVersion" });
export type EvidenceVersion = Immutable<z.output<typeof evidenceVersion>>;

/** A description, finished or not. */
export const evidenceDescription = z.record(z.string(), z.unknown(), "an object: the description, finished or not");

/** `GET /api/evidence/:id`, and the answer to every change: the draft with the versions that were saved. */
export const ownEvidence = z
  .strictObject({
    ...listed,
    draft: z.int().describe("Counts the changes of the draft"),
    document: evidenceDescription,
    files: z.array(keptFile),
    versions: z.array(evidenceVersion).describe("Latest first"),
  })
  .meta({ id: "OwnEvidence" });
export type OwnEvidence = Immutable<z.output<typeof ownEvidence>>;

/** `GET /api/evidence/:id/versions/:version`: what was saved. */
export const savedEvidence = z
  .strictObject({
    version: z.int(),
    at: z.string().describe("ISO 8601, UTC"),
    title: z.string(),
    document: evidenceDescription,
    files: z.array(keptFile),
  })
  .meta({ id: "SavedEvidence" });
export type SavedEvidence = Immutable<z.output<typeof savedEvidence>>;

/** The query of `GET /api/evidence-behind`: digests of the files that an input of a record names as its evidence. */
export const evidenceBehindQuery = z.object({
  sha256: several(
    z
      .array(z.string().regex(/^[0-9a-f]{64}$/, "a SHA-256 of 64 hexadecimal digits"), "one to 20 digests")
      .min(1, "one to 20 digests")
      .max(20, "one to 20 digests"),
  ).describe("SHA-256 of each file, in the order of the record"),
});

/** What the server still has of it. */
export const evidenceBehind = z
  .strictObject({
    kept: z.array(digest).describe("Those of the files that are here"),
    saved: z
      .strictObject({ id: z.string(), kind: evidenceKind, version: z.int(), title: z.string() })
      .nullable()
      .describe("The version of evidence of one's own that the input was evaluated from"),
  })
  .meta({ id: "EvidenceBehind" });
export type EvidenceBehind = Immutable<z.output<typeof evidenceBehind>>;

/** A description with the files that it names. */
export const evidenceContent = {
  document: evidenceDescription,
  files: z
    .array(
      z.object({
        name: z.string().regex(/^[^/\\\p{Cc}]{1,200}$/u, "the name of a file, without a folder"),
        sha256: z.string().regex(/^[0-9a-f]{64}$/, "the SHA-256 of a file that was sent before"),
      }),
      "a list of files, each with its name and sha256",
    )
    .max(12, "at most 12 files"),
};

/** `POST /api/evidence` */
export const newEvidence = z
  .object({ kind: evidenceKind, ...evidenceContent }, "an object with kind, document and files")
  .meta({ id: "NewEvidence" });
export type NewEvidence = Immutable<z.input<typeof newEvidence>>;

/** `PUT /api/evidence/:id`: another draft in place of the one that was seen; `save` makes it a version. */
export const changedEvidence = z
  .object(
    {
      ...evidenceContent,
      seen: z.number("the number of the draft that was seen"),
      save: z.boolean("true, to make it a version, or false"),
    },
    "an object with document, files, seen and save",
  )
  .meta({ id: "ChangedEvidence" });
export type ChangedEvidence = Immutable<z.input<typeof changedEvidence>>;

/** The query of `POST /api/evidence-files`. */
export const evidenceFileQuery = z.object({ name: fileName.describe("The file's name") });

/** `POST /api/log-looks`: files of a log that were sent before. */
export const logLookRequest = z
  .object({ files: evidenceContent.files }, "an object with files")
  .meta({ id: "LogLookRequest" });
export type LogLookRequest = Immutable<z.input<typeof logLookRequest>>;

const unit = z.enum(["°C", "K", "mK", "°F", "Ω"]);

const proposal = z
  .strictObject({
    headingRow: z.int().describe("Row of the headings in the file; 0 if there is none"),
    firstRow: z.int().describe("First row of readings in the file"),
    rows: z.int(),
    columns: z.array(
      z.strictObject({
        letter: z.string(),
        heading: z.string().describe("With its unit; the letter if there are no headings"),
        kind: z.enum(["time", "time of day", "figures", "text", "empty"]),
        unit: unit.nullable(),
        figures: z.int(),
        noReadings: z.int(),
        others: z.int().describe("Cells that are neither"),
        firstOther: z.strictObject({ row: z.int(), text: z.string() }).nullable(),
      }),
    ),
    time: z.string().nullable().describe("Heading or letter of the time column"),
    timeOfDay: z.string().nullable(),
    clock: z.enum(["dated", "of-day", "elapsed"]).nullable(),
    timeUnit: z.string().nullable(),
    dates: z.enum(["day-first", "month-first"]).nullable(),
    ambiguous: z.string().nullable().describe("A date that may be two, if none shows which"),
    thermometers: z.array(z.strictObject({ name: z.string(), column: z.string().nullable(), unit: unit.nullable() })),
    steps: z
      .array(z.strictObject({ row: z.int(), from: z.number(), to: z.number() }))
      .describe("Where the clock went back"),
    sameTime: z.int().describe("Rows with the time of the row above"),
    unfinished: z.boolean().describe("Whether the file ends within a row"),
  })
  .meta({ id: "LogProposal" });

const plan = z
  .discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("steps"),
      steps: z.array(
        z.strictObject({
          from: z.string(),
          to: z.string(),
          at: z.record(z.string(), z.string()).describe("Name of a position, by thermometer"),
        }),
      ),
    }),
    z.strictObject({
      kind: z.literal("positions"),
      positions: z.array(
        z.strictObject({
          name: z.string(),
          depth: z.string().describe("In mm, as it is written"),
          radius: z.string().describe("In mm, as it is written"),
          direction: z.string(),
        }),
      ),
    }),
  ])
  .meta({ id: "SurveyPlan" });

export type SurveyPlan = Immutable<z.output<typeof plan>>;

/** How a file of a log looks: what a person is shown and asked. */
export const logLook = z
  .strictObject({
    name: z.string(),
    proposal,
    rows: z
      .array(z.strictObject({ row: z.int(), cells: z.array(z.string()) }))
      .describe("The first rows, headings among them, with their numbers in the file"),
    notes: z.array(z.string()),
    plan: plan.nullable().describe("What the file states if it is no log but the steps or the positions of a survey"),
  })
  .meta({ id: "LogLook" });
export type LogLook = Immutable<z.output<typeof logLook>>;
export const logLooks = z.array(logLook);
export type LogLooks = Immutable<z.output<typeof logLooks>>;

/** `POST /api/log-series`: reads a log as its description says. */
export const logSeriesRequest = z
  .object(evidenceContent, "an object with document and files")
  .meta({ id: "LogSeriesRequest" });
export type LogSeriesRequest = Immutable<z.input<typeof logSeriesRequest>>;

/** A log drawn small, and where nothing seems to have been moved. Times in s, temperatures in °C. */
export const logSeries = z
  .strictObject({
    outlines: logOutlines,
    plateaus: z.array(z.strictObject({ from: z.number(), to: z.number() })),
    rows: z.int(),
    notes: z.array(z.string()),
  })
  .meta({ id: "LogSeries" });
export type LogSeries = Immutable<z.output<typeof logSeries>>;

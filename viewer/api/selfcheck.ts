import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { fault } from "./fault.ts";

const value = z.union([z.number(), z.string(), z.array(z.number())]);
/** A figure: a number, several of one row of a table, or words (a verdict, digits, a digest). */
export type Value = Immutable<z.output<typeof value>>;

const tolerance = z.strictObject({
  limit: z
    .number()
    .nullable()
    .describe(
      "Greatest difference of any one number; null if the two must be the same, or lie within what the basis says",
    ),
  basis: z
    .string()
    .describe("The source of the limit: half a printed digit, five standard errors, equal to the last bit"),
});
/** How far an obtained figure may lie from the published one, and the reason. */
export type Tolerance = Immutable<z.output<typeof tolerance>>;

const findingFields = {
  what: z.string(),
  source: z
    .string()
    .nullable()
    .describe("Document, edition, clause or table; or common practice; null for the check's own source"),
  published: value,
  obtained: value,
  unit: z.string(),
  tolerance,
  passed: z.boolean(),
  shown: z
    .strictObject({ published: z.string(), obtained: z.string(), tolerance: z.string() })
    .describe("The figures as they are set, with the digits that matter, and the limit without its basis"),
};
const finding = z.strictObject(findingFields);
/** What a check found: one line of the report, before it is put in its group. */
export type Finding = Immutable<z.output<typeof finding>>;

const checkLine = z.strictObject({ ...findingFields, group: z.string(), source: z.string() }).meta({ id: "CheckLine" });
/** A line of the report. */
export type CheckLine = Immutable<z.output<typeof checkLine>>;

const installationFacts = z.strictObject({
  version: z.string(),
  folder: z.string().describe("Folder of the installation"),
  commit: z
    .string()
    .nullable()
    .describe("Commit the build was made from; null outside a checkout, + if files differed from it"),
  engineDigest: z.string().describe("SHA-256 of the sources of the engine"),
  modelsDigest: z.string().describe("SHA-256 of the sources of the models"),
  runtime: z.string(),
  system: z.string(),
  processor: z.string(),
  workers: z.int(),
});
/** What was checked, and on what. */
export type InstallationFacts = Immutable<z.output<typeof installationFacts>>;

const selfcheckSummary = z
  .strictObject({
    format: z.literal("trialband-selfcheck/1"),
    startedAt: z.iso.datetime(),
    seconds: z.number(),
    scope: z.enum(["quick", "full"]),
    seed: z.string().nullable().describe("The seed asked for in place of the studies' own"),
    installation: installationFacts,
    passed: z.int(),
    failed: z.int(),
  })
  .meta({ id: "SelfcheckSummary" });
/** How a selfcheck ended. */
export type SelfcheckSummary = Immutable<z.output<typeof selfcheckSummary>>;

const checkEvents = [
  z.strictObject({ type: z.literal("group"), id: z.string(), title: z.string() }),
  z.strictObject({ type: z.literal("step"), title: z.string(), done: z.int(), all: z.int() }),
  z.strictObject({ type: z.literal("line"), line: checkLine }),
] as const;
/** What happens while the checks are made. */
export type CheckEvent = Immutable<z.output<(typeof checkEvents)[number]>>;

/** An event of `POST /api/selfcheck?quick=`. The last is done or failed. */
export const selfcheckEvent = z
  .discriminatedUnion("type", [
    ...checkEvents,
    z.strictObject({ type: z.literal("done"), report: selfcheckSummary }),
    z.strictObject({ type: z.literal("failed"), error: fault }),
  ])
  .meta({ id: "SelfcheckEvent" });
export type SelfcheckEvent = Immutable<z.output<typeof selfcheckEvent>>;

/** The query of `POST /api/selfcheck`. */
export const selfcheckQuery = z.strictObject(
  { quick: z.enum(["0", "1"], "0 or 1").default("0").describe("1: in seconds, with fewer trials") },
  "nothing: a selfcheck is asked for with quick alone",
);

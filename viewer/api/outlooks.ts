import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

export const OUTLOOK_KINDS = ["plan", "history", "comparison"] as const;
export type OutlookKind = (typeof OUTLOOK_KINDS)[number];

const object = z.record(z.string(), z.unknown());
const files = z.array(z.strictObject({ name: z.string(), sha256: z.string() }));

/** A plan, a history or a comparison of laboratories, read from its files and evaluated. Nothing is kept. */
export const openedOutlook = z
  .discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("plan"),
      title: z.string(),
      plan: object.describe("Gains, steps, frontier and proposal"),
      study: object.describe("The proposed study, to be run"),
      safety: z.strictObject({ warnings: z.array(z.string()), cautions: z.array(z.string()) }),
      files,
    }),
    z.strictObject({
      kind: z.literal("history"),
      title: z.string(),
      history: object.describe("Drift, prediction, due days and statements of each quantity"),
      files,
    }),
    z.strictObject({
      kind: z.literal("comparison"),
      title: z.string(),
      comparison: object.describe("The document with its defaults"),
      found: object.describe("Reference values and degrees of equivalence"),
      files,
    }),
  ])
  .meta({ id: "OpenedOutlook" });
export type OpenedOutlook = Immutable<z.output<typeof openedOutlook>>;

const planned = z.looseObject({
  at: z.number(),
  part: z.string().nullable(),
  target: z.number(),
  proposed: z.looseObject({ linear: z.number(), claimed: z.number() }),
});

/** `POST /api/outlooks/confirmation` */
export const confirmationRequest = z
  .strictObject({
    plan: z
      .looseObject({ measurand: z.string(), points: z.array(planned).min(1).max(1000) })
      .describe("As the opening gave it"),
    run: z.string().min(1).describe("Id of the finished run of the proposed study"),
  })
  .meta({ id: "ConfirmationRequest" });
export type ConfirmationRequest = Immutable<z.output<typeof confirmationRequest>>;

const standing = z.enum(["met", "missed", "undecided"]);

/** What the run of a proposal found, beside what was predicted. */
export const planConfirmation = z
  .strictObject({
    points: z.array(
      z.strictObject({
        at: z.number(),
        part: z.string().nullable(),
        target: z.number(),
        predicted: z.number(),
        claimed: z.number().describe("The greater of linear and distribution"),
        linear: z.number(),
        distribution: z.number(),
        meets: z.boolean(),
        standing: standing.describe("Undecided: the target lies within twice the standard error of the claim"),
      }),
    ),
    meets: z.boolean(),
    standing: standing.describe("Missed if it is at any point, else undecided if it is at any, else met"),
    agrees: z.boolean(),
    largestDifference: z.number(),
    trials: z.int(),
  })
  .meta({ id: "PlanConfirmation" });
export type PlanConfirmation = Immutable<z.output<typeof planConfirmation>>;

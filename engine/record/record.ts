import * as z from "zod";
import { studySchema } from "../study/study.ts";
import { FORMAT } from "./format.ts";
import type { Immutable } from "../immutable.ts";
import { inputSchema, leftOutSchema } from "./input.ts";
import { calibrationCurveSchema, jointSchema } from "./joint.ts";
import { measurandSchema } from "./measurand.ts";
import { figure } from "./parts.ts";
import { environmentSchema, provenanceSchema, sealSchema } from "./seal.ts";
import { sweepRecordSchema } from "./sweep.ts";

const modelSchema = z.strictObject({
  id: z.string(),
  title: z.string(),
  equation: z.string().nullable(),
  source: z.string().nullable(),
  /** Whether the model keeps to functions with fixed bits; if not, bits hold for one JavaScript engine only. */
  fixedBits: z.boolean(),
});

/**
 * What a run leaves, before it is filed. The one definition that the checks, the published JSON Schema and the
 * TypeScript types come from.
 */
const runRecordSchema = z.strictObject({
  format: z.literal(FORMAT),
  engine: z.strictObject({ name: z.literal("trialband"), version: z.string() }),
  study: studySchema,
  model: modelSchema,
  coverage: z.strictObject({
    /** Which custom the study follows: a probability with k from t, or a fixed factor k. */
    custom: z.enum(["probability", "factor"]),
    /** The probability asked for, or the one the fixed factor claims for a normal distribution. */
    probability: figure,
    /** The Monte Carlo interval the budget is compared with. */
    interval: z.enum(["symmetric", "shortest"]),
  }),
  generator: z.strictObject({ id: z.string(), title: z.string(), seed: z.string() }),
  trials: z.strictObject({
    count: z.int().positive(),
    /** Trials a batch of the adaptive procedure has. */
    batch: z.int().positive(),
    /** Why the run stopped: the number asked for, the figures settled, or the limit of an adaptive run. */
    stop: z.enum(["fixed", "settled", "limit"]),
    /** Trials left out since the model is undefined for them, if the study says so; `count` is of the others. */
    leftOut: z.int().nonnegative().exactOptional(),
  }),
  inputs: z.record(z.string(), inputSchema),
  /** Optional inputs of the model that the study does not state: taken as zero. Missing if there are none. */
  leftOut: z.array(leftOutSchema).exactOptional(),
  measurands: z.record(z.string(), measurandSchema),
  /** What several measurands have in common; `null` if there is one. */
  joint: jointSchema.nullable(),
  /**
   * The calibration curve that the measurands are parameters of, with its uncertainty; `null` if the model declares none,
   * and in a snapshot of a run that goes on. Records filed before a model could declare a curve lack it.
   */
  calibrationCurve: calibrationCurveSchema.nullable().exactOptional(),
  /** The result over a range; `null` if the study does not sweep. */
  sweep: sweepRecordSchema.nullable(),
  /** Remarks a reader must know to read the figures, as sentences. */
  remarks: z.array(z.string()),
  /** What may hurt a person who makes this measurement, as sentences; warnings about the study's own bath come first. */
  cautions: z.array(z.string()),
  environment: environmentSchema.exactOptional(),
});

/** A record as it is filed. */
export const recordSchema = runRecordSchema.extend({
  environment: environmentSchema,
  provenance: provenanceSchema,
  seal: sealSchema,
});

/** A record to show: as it is filed, or one that was never sealed (of an older format, or made by `propagate`). */
export const shownRecordSchema = runRecordSchema.extend({
  provenance: provenanceSchema.exactOptional(),
  seal: sealSchema.exactOptional(),
});

/**
 * What a run leaves behind, as plain JSON: everything a person needs to read the result and a machine to repeat it.
 * No `NaN` or `Infinity`: what does not exist, or is infinite, is `null`, as each field says.
 *
 * The record of one study and one version of the engine reproduces exactly, bit for bit, for any number of workers; what
 * differs from run to run (time, machine) stands in `environment` alone.
 */
export type RunRecord = Immutable<z.output<typeof runRecordSchema>>;
/** What a record keeps of its model: which it was, its equation and its source in words (`null` if it states none). */
export type ModelSummary = Immutable<z.output<typeof modelSchema>>;
/** A record as it is filed. */
export type SealedRecord = Immutable<z.output<typeof recordSchema>>;
/** A record to show: as it is filed, or one that was never sealed (of an older format, or made by `propagate`). */
export type ReportedRecord = Immutable<z.output<typeof shownRecordSchema>>;

export type * from "./input.ts";
export type * from "./linear.ts";
export type * from "./measurand.ts";
export type * from "./monte-carlo.ts";
export type * from "./seal.ts";
export type * from "./validation.ts";

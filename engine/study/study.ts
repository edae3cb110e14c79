import * as z from "zod";
import { conformitySchema } from "./conformity-statement.ts";
import { coverageSchema } from "./coverage-statement.ts";
import { correlationSchema } from "./correlation-statement.ts";
import { statementSchema, type Statement } from "../distributions/index.ts";
import { refuse } from "../errors.ts";
import type { Immutable } from "../immutable.ts";
import { readBySchema } from "../schema-problems.ts";
import { sweepSchema } from "./sweep-statement.ts";
import type { Model } from "../model.ts";
import { generatorIds } from "../random/index.ts";
import { sensitivitySchema } from "./sensitivity-settings.ts";

/** Greatest number of trials of one run: it takes some minutes, and memory does not grow. */
export const MAXIMUM_TRIALS = 10_000_000_000;
/** Limit of an adaptive run if the study states none. */
const USUAL_MAXIMUM = 20_000_000;

/**
 * A study: one model, the laboratory's knowledge of each input quantity, and the settings of the propagation. The JSON
 * Schema, the checks and the TypeScript types all come from this definition.
 */
export const studySchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1).describe("What was measured, for the heading"),
  laboratory: z.string().optional().describe("Who made the measurement"),
  notes: z.string().optional().describe("Anything a reader should know"),
  model: z.string().min(1).describe("Id of a registered model, or path to a .ts, .mjs or .js file beside the study"),
  parameters: z.record(z.string(), z.json()).optional().describe("Parameters of a model family, if the model has any"),
  inputs: z.record(z.string(), statementSchema).describe("What is known of every input quantity of the model, by name"),
  negligible: z
    .record(z.string(), z.string().min(1))
    .optional()
    .describe("Optional inputs of the model that were judged negligible and left out: by name, and why, in a sentence"),
  bath: z
    .record(z.string(), z.json())
    .optional()
    .describe(
      "What is known of the bath itself, if the model checks its safety: fluid, set temperature, cut-outs (models/bath/fluids.ts)",
    ),
  correlations: z.array(correlationSchema).default([]).describe("Inputs that depend on one another"),
  coverage: coverageSchema.default({ probability: 0.95, interval: "symmetric" }),
  significantDigits: z
    .union([z.literal(1), z.literal(2)])
    .default(2)
    .describe("Digits of u(y) regarded as meaningful; they determine the numerical tolerance δ (JCGM 101, 7.9.2)"),
  trials: z
    .union([z.int().gte(1000).lte(MAXIMUM_TRIALS), z.literal("adaptive")])
    .default(1_000_000)
    .describe("Number of Monte Carlo trials, or adaptive: until the figures have stabilised (JCGM 101, 7.9)"),
  undefinedTrials: z
    .enum(["refuse", "leave-out"])
    .optional()
    .describe(
      "Trials for which the model is undefined: the first ends the run (refuse, taken where nothing is stated), or they are left out and counted (leave-out); the result is then that of the inputs given that the model is defined",
    ),
  maximumTrials: z
    .int()
    .gte(20_000)
    .lte(MAXIMUM_TRIALS)
    .default(USUAL_MAXIMUM)
    .describe("Greatest number of trials of an adaptive run"),
  conformity: z
    .record(z.string(), conformitySchema)
    .default({})
    .describe("Tolerances and decision rules, by measurand (JCGM 106)"),
  sensitivity: sensitivitySchema
    .nullable()
    .default(null)
    .describe("Sensitivity without linearisation, if wanted; it costs as much as several runs"),
  sweep: sweepSchema
    .nullable()
    .default(null)
    .describe("The result over a range, at further points where some inputs differ"),
  generator: z.enum(generatorIds).default("sfc32x4-philox").describe("Random number generator"),
  seed: z
    .string()
    .min(1)
    .max(200)
    .default("1")
    .describe("Seed of every random number; with the same seed a run reproduces exactly, bit for bit"),
});

/** A study with its defaults filled in. */
export type Study = Immutable<z.output<typeof studySchema>>;
/** A study as a person writes it. */
export type StudyDocument = Immutable<z.input<typeof studySchema>>;

/**
 * A study document whose inputs are those of one model: a missing or unknown name does not compile. `model` may be left
 * out, since the model itself is given beside it.
 */
export type StudyOf<I extends string, P extends string = never> = Omit<StudyDocument, "inputs" | "model"> & {
  readonly model?: string;
  readonly inputs: Readonly<Record<I, Statement>> & Readonly<Partial<Record<P, Statement>>>;
};

/** A study with its model, as `defineStudy` returns it. */
export interface DefinedStudy<I extends string = string, O extends string = string, P extends string = string> {
  readonly model: Model<I, O, P>;
  readonly study: StudyDocument;
}

/**
 * A study in TypeScript for an imported model.
 *
 * @example
 * export default defineStudy(density, {
 *   title: "Density of the check weight",
 *   inputs: {
 *     mass: { distribution: "normal", estimate: 1.0002, standardUncertainty: 0.0001 },
 *     volume: { distribution: "rectangular", estimate: 1.25e-4, halfWidth: 2e-7 },
 *   },
 * });
 */
export function defineStudy<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: StudyOf<I, P>,
): DefinedStudy<I, O, P>;
export function defineStudy(model: Model, study: StudyOf<string, string>): DefinedStudy {
  return { model, study: { ...study, model: model.id } as StudyDocument };
}

/**
 * Greatest number of inputs: a budget grows with the square of their number, since each sensitivity coefficient takes
 * several values of a model of that many inputs.
 */
export const MAXIMUM_INPUTS = 1000;

/** Greatest depth of nesting of a study, since checks are recursive. */
const MAXIMUM_DEPTH = 100;

function isDeeperThan(value: unknown, levels: number): boolean {
  if (typeof value !== "object" || value === null) return false;
  return levels === 0 || Object.values(value).some((item) => isDeeperThan(item, levels - 1));
}

/**
 * Checks a study document and fills its defaults.
 *
 * @throws {InputError} every problem found, each with its place, value and accepted values
 */
export function readStudy(document: unknown): Study {
  if (isDeeperThan(document, MAXIMUM_DEPTH))
    refuse("", "a document nested more deeply", `a study nested at most ${MAXIMUM_DEPTH} levels deep`);
  // Before they are read one by one, so that too many cost nothing.
  const { inputs } = (document ?? {}) as { readonly inputs?: unknown };
  const count = typeof inputs === "object" && inputs !== null ? Object.keys(inputs).length : 0;
  if (count > MAXIMUM_INPUTS) refuse("inputs", `${count} inputs`, `at most ${MAXIMUM_INPUTS} inputs`);
  const study = readBySchema(studySchema, document);
  const { coverage } = study;
  if ((coverage.probability === undefined) === (coverage.factor === undefined)) {
    refuse("coverage", coverage, "exactly one of probability (such as 0.95) and factor (such as 2)");
  }
  return study;
}

import * as z from "zod";
import { InputError, show, type Problem } from "../../engine/index.ts";
import { readBySchema, type Immutable } from "../../engine/internal.ts";

/** A standard uncertainty, or U with its k. */
const uncertainty = {
  standardUncertainty: z.number().gt(0).optional().describe("u"),
  expandedUncertainty: z.number().gt(0).optional().describe("U, with coverageFactor"),
  coverageFactor: z.number().gt(0).optional().describe("k that U was stated with"),
};

const ONE_UNCERTAINTY = "standardUncertainty alone, or expandedUncertainty with coverageFactor";

const statesOne = (stated: {
  readonly standardUncertainty?: number | undefined;
  readonly expandedUncertainty?: number | undefined;
  readonly coverageFactor?: number | undefined;
}): boolean =>
  stated.standardUncertainty === undefined
    ? stated.expandedUncertainty !== undefined && stated.coverageFactor !== undefined
    : stated.expandedUncertainty === undefined;

/** What takes the weighted mean's place where the results do not agree. */
const INCONSISTENT = ["randomEffects", "largestSubset", "median"] as const;
const MOST_TRIALS = 1_000_000;
/** Most values kept at a time: trials of all laboratories, 160 MB. */
const MOST_VALUES = 20_000_000;

const laboratorySchema = z
  .strictObject({
    name: z.string().min(1).max(80),
    value: z.number().describe("Result"),
    ...uncertainty,
    inReference: z.boolean().default(true).describe("Whether the result counts in the reference value"),
  })
  .refine(statesOne, { message: ONE_UNCERTAINTY });

/** Results of several laboratories for one quantity. */
export const laboratoriesSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1),
  notes: z.string().optional(),
  quantity: z.string().min(1).describe("What was measured, in words"),
  unit: z.string().min(1),
  laboratories: z.array(laboratorySchema).min(2).max(200),
  correlations: z
    .array(
      z.strictObject({
        between: z.tuple([z.string(), z.string()]).describe("Names of two laboratories"),
        coefficient: z.number().gte(-1).lte(1),
        source: z.string().min(1).optional(),
      }),
    )
    .default([]),
  assigned: z
    .strictObject({
      value: z.number(),
      ...uncertainty,
      source: z.string().min(1).optional(),
      correlation: z
        .number()
        .gt(-1)
        .lt(1)
        .default(0)
        .describe("Correlation coefficient of each result with it, such as that of a common reference standard"),
    })
    .refine(statesOne, { message: ONE_UNCERTAINTY })
    .optional()
    .describe("An assigned value from elsewhere; without it the laboratories make the reference value"),
  coverageFactor: z
    .number()
    .gt(0)
    .default(2)
    .describe("k of the expanded uncertainty of a degree of equivalence, and of results stated by u"),
  whenInconsistent: z
    .enum(INCONSISTENT)
    .default("randomEffects")
    .describe(
      "Reference value where the χ² test fails: with an effect of each laboratory (Mandel–Paule), the weighted mean of the largest consistent subset, or the median",
    ),
  trials: z
    .int()
    .gte(10_000)
    .lte(MOST_TRIALS)
    .default(100_000)
    .describe("Trials of the median, whose distribution is propagated by Monte Carlo"),
  seed: z.string().min(1).max(200).default("trialband").describe("Seed of these trials"),
  significance: z.number().gt(0).lt(0.5).default(0.05).describe("α of the χ² test of consistency"),
});

/**
 * A comparison of laboratories that has been checked, with its defaults: the results of two or more for one quantity,
 * all in `unit`, their correlations, and an assigned value if there is one. `readLaboratories` returns it.
 */
export type LaboratoryComparison = Immutable<z.output<typeof laboratoriesSchema>>;

/** @throws {InputError} every problem found, a laboratory that stands twice among them */
export function readLaboratories(document: unknown): LaboratoryComparison {
  const comparison = readBySchema(laboratoriesSchema, document);
  const names = comparison.laboratories.map(({ name }) => name);
  const problems = names.flatMap((name, i): Problem[] =>
    names.indexOf(name) === i
      ? []
      : [{ place: `laboratories.${i}.name`, value: show(name), accepted: "another name for each laboratory" }],
  );
  const most = Math.floor(MOST_VALUES / names.length);
  if (comparison.trials > most)
    problems.push({
      place: "trials",
      value: show(comparison.trials),
      accepted: `at most ${most} with ${names.length} laboratories`,
    });
  if (problems.length > 0) throw new InputError(problems);
  return comparison;
}

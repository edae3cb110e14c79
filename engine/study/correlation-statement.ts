import * as z from "zod";
import type { Immutable } from "../immutable.ts";

/** How a study states that two inputs depend on one another. */
export const correlationSchema = z.strictObject({
  between: z.tuple([z.string(), z.string()]).describe("Names of two inputs"),
  coefficient: z
    .union([z.number().gte(-1).lte(1), z.literal("readings")])
    .describe("Correlation coefficient; or readings: the one that the simultaneous indications of both show"),
  refersTo: z
    .enum(["values", "ranks"])
    .default("values")
    .describe("Whether the coefficient is Pearson's, of the values, or Spearman's, of their ranks"),
  series: z
    .enum(["simultaneous", "separate"])
    .optional()
    .describe(
      "For t inputs of equal degrees of freedom: simultaneous readings, which share their scatter (multivariate t; taken where nothing is stated), or separate series (Gaussian copula)",
    ),
  source: z.string().min(1).optional().describe("Where the coefficient comes from, in words"),
});

export type CorrelationStatement = Immutable<z.output<typeof correlationSchema>>;

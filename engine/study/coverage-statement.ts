import * as z from "zod";

/** A study's statement of coverage. */
export const coverageSchema = z
  .strictObject({
    probability: z.number().gt(0.5).lt(1).optional().describe("Coverage probability p: k is then t at p and ν_eff"),
    factor: z
      .number()
      .gt(0)
      .lte(10)
      .optional()
      .describe("Fixed coverage factor k: p is then the probability of ±k·u for a normal"),
    interval: z
      .enum(["symmetric", "shortest"])
      .default("symmetric")
      .describe("The Monte Carlo interval the budget is compared with: probabilistically symmetric or shortest"),
  })
  .describe("Exactly one of probability and factor");

export type CoverageStatement = z.output<typeof coverageSchema>;

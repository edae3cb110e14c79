import * as z from "zod";
import { BLOCK_TRIALS } from "../random/block.ts";

/** Smallest number of blocks for a confidence interval. */
export const FEWEST_BLOCKS = 10;
export const FEWEST_SENSITIVITY_TRIALS = FEWEST_BLOCKS * BLOCK_TRIALS;
export const MOST_SENSITIVITY_TRIALS = 2_000_000;

/** The settings of a study's sensitivity analysis. */
export const sensitivitySchema = z.strictObject({
  trials: z
    .int()
    .gte(FEWEST_SENSITIVITY_TRIALS)
    .lte(MOST_SENSITIVITY_TRIALS)
    .default(100_000)
    .describe(
      "Trials of the sensitivity analysis, rounded up to whole blocks of 2500; each costs 2 + 2n evaluations of a model with n inputs",
    ),
});

export type SensitivitySettings = z.output<typeof sensitivitySchema>;

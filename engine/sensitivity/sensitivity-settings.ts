import * as z from "zod";
import { BLOCK_TRIALS } from "../trials/block.ts";

/** Fewest blocks from which a confidence interval is judged. */
export const FEWEST_BLOCKS = 10;
export const FEWEST_SENSITIVITY_TRIALS = FEWEST_BLOCKS * BLOCK_TRIALS;
export const MOST_SENSITIVITY_TRIALS = 2_000_000;

/** What a study may say about its sensitivity analysis. */
export const sensitivitySchema = z.strictObject({
  trials: z
    .int()
    .gte(FEWEST_SENSITIVITY_TRIALS)
    .lte(MOST_SENSITIVITY_TRIALS)
    .default(100_000)
    .describe(
      "Trials of the sensitivity analysis, made up to whole blocks of 2500: each costs 2 + 2n evaluations of a model of n inputs",
    ),
});

export type SensitivitySettings = z.output<typeof sensitivitySchema>;

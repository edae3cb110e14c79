import type { Command } from "commander";
import { USUAL_MODEL_LIMITS, type ModelLimits } from "../own-model/host.ts";
import { wholeNumber } from "./options.ts";

export interface ModelLimitFlags {
  readonly timeLimit: number;
  readonly memoryLimit: number;
}

/** Options of a command that may run a model of one's own. */
export const withModelLimits = (command: Command): Command =>
  command
    .option(
      "--time-limit <seconds>",
      "seconds that a model of one's own may take",
      wholeNumber(1, 1_000_000),
      USUAL_MODEL_LIMITS.seconds,
    )
    .option(
      "--memory-limit <megabytes>",
      "memory that a model of one's own may take",
      wholeNumber(64, 1_000_000),
      USUAL_MODEL_LIMITS.megabytes,
    );

export const limitsOf = ({ timeLimit, memoryLimit }: ModelLimitFlags): ModelLimits => ({
  seconds: timeLimit,
  megabytes: memoryLimit,
});

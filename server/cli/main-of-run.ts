import { commandLine } from "./command-line.ts";
import { run } from "./run.ts";

/**
 * The command that people wait for most often, built as one script of its own: `bin.mjs` keeps what the engine has compiled of
 * it, which for modules Node.js 20 has no way to do.
 */
export const main = (argv: readonly string[]): Promise<void> => commandLine({ run: async () => run }, argv);

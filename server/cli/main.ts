import { commandLine } from "./command-line.ts";
import { commands } from "./index.ts";

/** Every command, for what it is given. */
export const main = (argv: readonly string[]): Promise<void> => commandLine(commands, argv);

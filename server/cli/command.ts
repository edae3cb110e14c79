import type { Command } from "commander";

/** A command: adds itself to the program. One file a command, one line in index.ts. */
export type CommandRegistration = (program: Command) => void;

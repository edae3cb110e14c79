import type { Command } from "commander";

/** The options that name a queue, the same for every command that uses one. */
export const withQueueOptions = (command: Command, what: string): Command =>
  command
    .option(
      "--queue [url]",
      `${what}: redis:// or rediss:// (encrypted); without the address it is taken from TRIALBAND_QUEUE`,
    )
    .option("--queue-file <file>", "file with the queue's address, which only you may read");

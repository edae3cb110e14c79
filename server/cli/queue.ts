import { readOwnQueue, type QueueFlags } from "../queue/settings.ts";
import { queueSummary } from "./queue-summary.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { withQueueOptions } from "./queue-options.ts";

interface StatusFlags extends QueueFlags {
  readonly json?: boolean;
}

export const queue: CommandRegistration = (program) => {
  const command = program
    .command("queue")
    .summary("show the workers and runs of a queue")
    .description("Shows what the workers of a queue are at.");
  withQueueOptions(command.command("status"), "the queue to look at")
    .description("Shows workers with what they draw a second, runs with how far they are, and what is stalled.")
    .option("--json", "print it as JSON")
    .action(async (flags: StatusFlags) => {
      const settings = readOwnQueue(flags);
      const { openQueueView } = await import("../queue/status.ts");
      const view = await openQueueView(settings);
      try {
        const state = await view.read();
        if (flags.json) process.stdout.write(`${JSON.stringify(state, null, 2)}\n`);
        else print(queueSummary(state, stylesFor(process.stdout), widthOf(process.stdout)));
      } finally {
        await view.close();
      }
    });
  for (const one of command.commands) one.exitOverride();
};

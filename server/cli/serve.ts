import { resolve } from "node:path";
import { Option } from "commander";
import { refused } from "../errors.ts";
import { defaultWorkers } from "../runs/pool/pool.ts";
import { LOG_LEVELS, type LogLevel } from "../http/levels.ts";
import type { CommandRegistration } from "./command.ts";
import { print, printAside } from "./print.ts";
import { wholeNumber } from "./options.ts";
import { warn, withStoreOption } from "./store-folder.ts";

interface ServeFlags {
  readonly host: string;
  readonly allowHost?: readonly string[];
  readonly port?: number;
  readonly workers?: number;
  readonly store: string;
  readonly longestRun?: number;
  readonly checkpointEvery?: string;
  readonly first?: string;
  readonly log: LogLevel;
}

export const serve: CommandRegistration = (program) => {
  withStoreOption(program.command("serve"))
    .summary("serve the evidence sheet as a page on this machine")
    .description(
      "Serves the page and its interface. Runs are kept in the store. One that is going on when the server stops goes on with the next.",
    )
    .option("--host <address>", "address to listen on; the default is reached from this machine only", "127.0.0.1")
    .option("--allow-host <name...>", "names by which people reach it if --host leads beyond this machine")
    .option("--port <n>", "port; without it 8417, or any free one if that is taken", wholeNumber(0, 65_535))
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option("--longest-run <seconds>", "time a run may go on; without it 12 hours", wholeNumber(1, 31_536_000))
    .option("--checkpoint-every <seconds>", "time from one checkpoint of a run to the next; without it 5 s")
    .addOption(
      new Option("--log <level>", "what is logged to standard error; info has a line for each request")
        .choices(LOG_LEVELS)
        .default("warn"),
    )
    .option("--first <study>", "run this listed study at once, e.g. harrowfen/steriliser-134")
    .addHelpText("after", "\nStop it with Ctrl+C.")
    .action(async (flags: ServeFlags) => {
      const [{ serve: start }, { openLog }] = await Promise.all([import("../serve.ts"), import("../http/log.ts")]);
      const serving = await start({
        host: flags.host,
        allowedHosts: flags.allowHost ?? [],
        port: flags.port ?? null,
        workers: flags.workers ?? defaultWorkers(),
        store: resolve(flags.store),
        limits: {
          ...(flags.longestRun === undefined ? {} : { seconds: flags.longestRun }),
          ...(flags.checkpointEvery === undefined ? {} : { checkpointEvery: 1000 * seconds(flags.checkpointEvery) }),
        },
        warn,
        log: openLog(flags.log),
      });
      let url = serving.url;
      if (flags.first !== undefined) {
        const id = await serving.runListed(flags.first);
        url += `#run=${id}`;
        const ended = new Promise<void>((done) => {
          serving.runs.follow(id, (event) => {
            if (event.type === "finished") {
              const sentences = Object.values(event.record.measurands).map(({ validation }) => validation.sentence);
              print(`${event.record.study.title}: ${sentences.join(" ")}\n`);
            }
            if (event.type === "failed") printAside(`${event.error.message}\n`);
            if (event.type === "finished" || event.type === "failed" || event.type === "cancelled") done();
          });
        });
        await ended;
      }
      process.stdout.write(`Trialband serves its page at ${url}\n`);
      await new Promise<void>((stopped) => {
        const stop = (): void => stopped();
        process.once("SIGINT", stop);
        process.once("SIGTERM", stop);
      });
      await serving.close();
    });
};

function seconds(text: string): number {
  const value = Number(text);
  if (!(value >= 0.1 && value <= 3600))
    throw refused("--checkpoint-every", text, "a number of seconds from 0.1 to 3600");
  return value;
}

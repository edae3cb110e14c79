import { resolve } from "node:path";
import { isIP } from "node:net";
import { Option } from "commander";
import { ROLES, type Role } from "../../viewer/api/access.ts";
import { refused } from "../errors.ts";
import { readQueue, type QueueFlags } from "../queue/settings.ts";
import { defaultWorkers } from "../runs/pool/pool.ts";
import { LOG_LEVELS, type LogLevel } from "../http/levels.ts";
import type { Serving } from "../serve.ts";
import type { CommandRegistration } from "./command.ts";
import { print, printAside } from "./print.ts";
import { wholeNumber } from "./options.ts";
import { withQueueOptions } from "./queue-options.ts";
import { warn, withStoreOption } from "./store-folder.ts";

interface ServeFlags extends QueueFlags {
  readonly host: string;
  readonly allowHost?: readonly string[];
  readonly users?: string;
  readonly tokenFile?: string;
  readonly tokenRole: Role;
  readonly certificate?: string;
  readonly key?: string;
  readonly publicOrigin?: string;
  readonly proxyAddress?: readonly string[];
  readonly unencrypted?: boolean;
  readonly port?: number;
  readonly workers?: number;
  readonly store: string;
  readonly longestRun?: number;
  readonly checkpointEvery?: string;
  readonly first?: string;
  readonly watch?: readonly string[];
  readonly log: LogLevel;
}

export const serve: CommandRegistration = (program) => {
  withQueueOptions(withStoreOption(program.command("serve")), "let the workers of a queue draw the trials of runs")
    .summary("serve the evidence sheet as a page on this machine")
    .description(
      "Serves the page and its interface. Runs are kept in the store. One that is going on when the server stops goes on with the next.",
    )
    .option("--host <address>", "address to listen on; the default is reached from this machine only", "127.0.0.1")
    .option("--allow-host <name...>", "names by which people reach it if --host leads beyond this machine")
    .option("--users <file>", "file of the people who may sign in, as trialband users keeps it")
    .option("--token-file <file>", "file with the token by which programs ask; TRIALBAND_TOKEN in its place")
    .addOption(new Option("--token-role <role>", "what the token allows").choices(ROLES).default("run"))
    .option("--certificate <file>", "certificate in PEM, with those that lead to its issuer: traffic is encrypted then")
    .option("--key <file>", "its private key in PEM")
    .option("--public-origin <origin>", "how people reach it through a proxy, such as https://trialband.example")
    .option("--proxy-address <address...>", "addresses of the proxy, whose word on who asks is taken")
    .option("--unencrypted", "let traffic go over the network without encryption; anyone who reads it can sign in too")
    .option("--port <n>", "port; without it 8417, or any free one if that is taken", wholeNumber(0, 65_535))
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option("--longest-run <seconds>", "time a run may go on; without it 12 hours", wholeNumber(1, 31_536_000))
    .option("--checkpoint-every <seconds>", "time from one checkpoint of a run to the next; without it 5 s")
    .addOption(
      new Option("--log <level>", "what is logged to standard error; info has a line for each request")
        .choices(LOG_LEVELS)
        .default("warn"),
    )
    .option("--watch <file...>", "logs that the page may follow as a logger writes them; they are only read")
    .option("--first <study>", "run this listed study at once, e.g. harrowfen/steriliser-134")
    .addHelpText(
      "after",
      `
Beyond this machine (--host, --public-origin) it asks who people are: --users, a token, or both.
A role may read (read), run and note too (run), remove and put back too (administer).
The certificate is read again on SIGHUP; changes of the file of users count at once. Stop it with Ctrl+C.`,
    )
    .action(async (flags: ServeFlags) => {
      const [{ serve: start }, { openLog }] = await Promise.all([import("../serve.ts"), import("../http/log.ts")]);
      const queue = readQueue(flags);
      const serving = await start({
        ...(queue === null ? {} : { queue }),
        host: flags.host,
        allowedHosts: flags.allowHost ?? [],
        ...(await protection(flags)),
        port: flags.port ?? null,
        workers: flags.workers ?? defaultWorkers(),
        store: resolve(flags.store),
        watch: (flags.watch ?? []).map((file) => resolve(file)),
        limits: {
          ...(flags.longestRun === undefined ? {} : { seconds: flags.longestRun }),
          ...(flags.checkpointEvery === undefined ? {} : { checkpointEvery: 1000 * seconds(flags.checkpointEvery) }),
        },
        warn,
        log: openLog(flags.log),
      });
      let sheet = "";
      if (flags.first !== undefined) {
        const id = await serving.runListed(flags.first);
        sheet = `The sheet of that run: ${serving.url}#run=${id}\n`;
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
      // Before it is said that it serves: a signal may follow at once.
      const stopped = untilStopped(serving, flags.certificate !== undefined || flags.users !== undefined);
      process.stdout.write(`${sheet}Trialband serves its page at ${serving.url}\n`);
      await stopped;
      await serving.close();
    });
};

/**
 * Waits for the signal that ends a server.
 *
 * @param asks whether it asks people who they are, or has a certificate: SIGHUP then renews the certificate; the file of
 *   users is looked at with every request anyway. Otherwise it ends the server: its terminal was closed
 */
function untilStopped(serving: Pick<Serving, "renewCertificate">, asks: boolean): Promise<void> {
  return new Promise((ended) => {
    const renew = (): void => serving.renewCertificate();
    const stop = (): void => {
      process.off("SIGHUP", renew);
      ended();
    };
    if (asks) process.on("SIGHUP", renew);
    else process.once("SIGHUP", stop);
    process.once("SIGINT", stop);
    process.once("SIGTERM", stop);
  });
}

/** Who may ask, and how what is sent is encrypted. @throws {Fault} `bad-input`: one of two files that go together is missing */
async function protection(flags: ServeFlags) {
  const { users, tokenFile, tokenRole, certificate, key, publicOrigin, proxyAddress, unencrypted } = flags;
  const { readToken } = await import("../access/token.ts");
  const token = readToken(tokenFile);
  if ((certificate === undefined) !== (key === undefined))
    throw refused(
      certificate === undefined ? "--certificate" : "--key",
      undefined,
      "both --certificate FILE and --key FILE, or neither",
    );
  for (const address of proxyAddress ?? [])
    if (isIP(address) === 0) throw refused("--proxy-address", address, "an address such as 192.0.2.7 or 2001:db8::7");
  return {
    ...(users === undefined ? {} : { users }),
    ...(token === null ? {} : { token: { text: token, role: tokenRole } }),
    ...(certificate === undefined || key === undefined ? {} : { tls: { certificate, key } }),
    ...(publicOrigin === undefined ? {} : { publicOrigin, proxies: proxyAddress ?? LOCAL }),
    ...(unencrypted === undefined ? {} : { unencrypted }),
  };
}

/** A proxy on the same machine. */
const LOCAL = ["127.0.0.1", "::1"];

function seconds(text: string): number {
  const value = Number(text);
  if (!(value >= 0.1 && value <= 3600))
    throw refused("--checkpoint-every", text, "a number of seconds from 0.1 to 3600");
  return value;
}

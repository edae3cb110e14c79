import { isIP } from "node:net";
import type { Redis } from "ioredis";
import { Fault } from "../errors.ts";
import type { QueueSettings } from "./settings.ts";
import { connectionWords, NO_ANSWER } from "./tls.ts";

/** Before every name in the queue. */
export const PREFIX = "trialband";
/** Milliseconds until a queue that does not answer counts as not there, when a command starts. */
const PATIENCE = 5000;
/** Most milliseconds between two attempts to reach a queue that was reached before. */
const LONGEST_PAUSE = 1000;

/** The packages that a queue needs, loaded when one is asked for: an installation without them does everything else. */
export async function loadPackages() {
  try {
    const [bullmq, ioredis] = await Promise.all([import("bullmq"), import("ioredis")]);
    return { ...bullmq, ...ioredis };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ERR_MODULE_NOT_FOUND") throw error;
    throw new Fault(
      "queue-unreachable",
      "A queue needs the packages bullmq and ioredis, which are not installed. Install them beside Trialband: npm install bullmq ioredis",
    );
  }
}

/** How the job engine and this program connect: they go on trying if the queue is away for a while. */
export const connectionOf = ({ host, port, db, username, password, tls }: QueueSettings) => ({
  host,
  port,
  db,
  ...(username === undefined ? {} : { username }),
  ...(password === undefined ? {} : { password }),
  // The host is named to a server of several; an address cannot be, and its certificate is held against it all the same.
  ...(tls === null ? {} : { tls: { ...tls, ...(isIP(host) === 0 ? { servername: host } : {}) } }),
  maxRetriesPerRequest: null,
  retryStrategy: (times: number) => Math.min(50 * 2 ** Math.min(times, 10), LONGEST_PAUSE),
});

/**
 * Connects to a queue, which must be there now; later it may be away for a while.
 *
 * @throws {Fault} `queue-unreachable`, without what is secret
 */
export async function connect(settings: QueueSettings): Promise<Redis> {
  const { Redis: Client } = await loadPackages();
  const first = new Client({ ...connectionOf(settings), lazyConnect: true, retryStrategy: () => null });
  let cause: Error | null = null;
  first.on("error", (error: Error) => (cause = error));
  const late = new Promise<never>((_, reject) => setTimeout(reject, PATIENCE, new Error(NO_ANSWER)).unref());
  try {
    await Promise.race([
      (async () => {
        await first.connect();
        await first.ping();
      })(),
      late,
    ]);
  } catch (error) {
    const words = connectionWords(cause ?? (error as Error), settings.tls);
    throw new Fault("queue-unreachable", `The queue at ${settings.shown} cannot be used: ${words}`);
  } finally {
    first.disconnect();
  }
  const client = new Client(connectionOf(settings));
  // Each attempt that fails is an event; whoever waits for an answer says that the queue is away.
  client.on("error", () => undefined);
  return client;
}

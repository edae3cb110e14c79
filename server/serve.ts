import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import type { Logger } from "pino";
import { createApp } from "./app.ts";
import { openChecker } from "./checks/checker.ts";
import { Fault } from "./errors.ts";
import { healthOf } from "./health.ts";
import { hostNames, isLoopback } from "./http/host-names.ts";
import { quiet } from "./http/log.ts";
import { loadStudyDocument } from "./shelves/study.ts";
import { packageRoot } from "./package-root.ts";
import { openPool, type Pool } from "./runs/pool/pool.ts";
import type { RunLimits } from "./runs/limits.ts";
import { Runs } from "./runs/runs.ts";
import { takeLock } from "./store/lock.ts";
import { openStore } from "./store/open-store.ts";
import { studyShelf } from "./shelves/studies.ts";

export interface ServeOptions {
  readonly host: string;
  /** Names or addresses by which people on other machines reach the server; required where `host` leads beyond this one. */
  readonly allowedHosts?: readonly string[];
  /** `null`: the usual port, or any free one if that is taken. */
  readonly port: number | null;
  readonly workers: number;
  /** Folder of the store; `null` keeps runs in memory only. */
  readonly store: string | null;
  readonly limits?: Partial<RunLimits>;
  readonly warn: (message: string) => void;
  /** Without one, nothing is logged. */
  readonly log?: Logger;
  /** Folder of the built page; without one, that of this installation. */
  readonly page?: string;
}

export interface Serving {
  readonly url: string;
  readonly runs: Runs;
  /** Starts a run of a study on the shelf. */
  runListed(id: string): Promise<string>;
  close(): Promise<void>;
}

export const USUAL_PORT = 8417;

/**
 * Starts the server.
 *
 * @throws {Fault} `bad-input`: no allowed host beyond this machine; a port that cannot be had; `store-in-use`; `cannot-keep`: a store that is damaged or cannot be written
 */
export async function serve(options: ServeOptions): Promise<Serving> {
  const { host, allowedHosts = [], warn } = options;
  const hosts = hostNames(host, allowedHosts);
  if (!isLoopback(host))
    warn(
      `The server listens on ${host} and asks nobody who they are: anyone who reaches it can read, run and remove. Its traffic is not encrypted.`,
    );
  const root = packageRoot();
  // One pool for all runs, started with the first and warm from then on.
  let opening: Promise<Pool> | undefined;
  const pool = (): Promise<Pool> => (opening ??= openPool(options.workers));
  const lock = options.store === null ? null : takeLock(options.store);
  const store = openStore({ folder: options.store, warn: options.warn });
  const runs = new Runs(pool, store, options.warn, options.limits);
  const shelf = studyShelf(join(root, "examples"));
  const checker = openChecker();
  const server = createServer(
    createApp({
      runs,
      shelf,
      checker,
      workers: options.workers,
      page: options.page ?? join(root, "dist/viewer"),
      hosts,
      log: options.log ?? quiet,
      health: () => healthOf(store, options.store, opening),
    }),
  );
  try {
    await listen(server, options);
  } catch (error) {
    store.close();
    lock?.release();
    throw error;
  }
  const { address, port, family } = server.address() as AddressInfo;
  const url = `http://${family === "IPv6" ? `[${address}]` : address}:${port}/`;
  lock?.publish(url);
  runs.restore();
  return {
    url,
    runs,
    async runListed(id) {
      return runs.start(await loadStudyDocument(await shelf.read(id), null), id);
    },
    async close() {
      runs.stop();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
      await Promise.all([opening?.then((opened) => opened.close()), checker.close()]);
      store.close();
      lock?.release();
    },
  };
}

async function listen(server: Server, { host, port }: ServeOptions): Promise<void> {
  const attempt = (wanted: number): Promise<void> =>
    new Promise((resolve, reject) => {
      server.once("error", reject);
      server.listen(wanted, host, () => {
        server.off("error", reject);
        resolve();
      });
    });
  try {
    await attempt(port ?? USUAL_PORT);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "EADDRINUSE" && port === null) return attempt(0);
    throw new Fault(
      "internal",
      `Cannot listen on ${host} port ${port ?? USUAL_PORT}: ${code === "EADDRINUSE" ? "another program uses it" : String(error)}`,
    );
  }
}

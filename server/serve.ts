import { createServer, type Server } from "node:http";
import { createServer as createTlsServer, type Server as TlsServer } from "node:https";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import type { Logger } from "pino";
import type { Role } from "../viewer/api/access.ts";
import { OPEN, openAccess } from "./access/access.ts";
import { currentUsers } from "./access/users-file.ts";
import { createApp } from "./app.ts";
import { openChecker } from "./checks/checker.ts";
import { openReader } from "./checks/reader.ts";
import { openDocuments } from "./documents/documents.ts";
import { describeProblem } from "../engine/index.ts";
import { Fault, reportOf } from "./errors.ts";
import { healthOf } from "./health.ts";
import { quiet } from "./http/log.ts";
import { reachOf, type ReachOptions } from "./http/reach.ts";
import { readTls } from "./http/tls.ts";
import { loadStudyDocument } from "./shelves/study.ts";
import { packageRoot } from "./package-root.ts";
import { openAssembler } from "./runs/assembly/assembler.ts";
import type { QueueSettings } from "./queue/settings.ts";
import { openPool, type Pool } from "./runs/pool/pool.ts";
import type { Fleet } from "./runs/far-drawing.ts";
import type { RunLimits } from "./runs/limits.ts";
import { Runs } from "./runs/runs.ts";
import { watchedLogs } from "./watch/watched-logs.ts";
import { takeLock } from "./store/lock.ts";
import { openStore } from "./store/open-store.ts";
import { openVerifier } from "./verify/verifier.ts";
import { studyShelf } from "./shelves/studies.ts";

export interface ServeOptions extends Omit<ReachOptions, "asks"> {
  /** A file of users, who then sign in. */
  readonly users?: string;
  /** The token of programs. */
  readonly token?: { readonly text: string; readonly role: Role };
  /** Addresses of proxies whose word on who asks is taken. */
  readonly proxies?: readonly string[];
  /** `null`: the usual port, or any free one if that is taken. */
  readonly port: number | null;
  readonly workers: number;
  /** Folder of the store; `null` keeps runs in memory only. */
  readonly store: string | null;
  readonly limits?: Partial<RunLimits>;
  readonly warn: (message: string) => void;
  /** Without one, nothing is logged. */
  readonly log?: Logger;
  /** A queue whose workers draw the trials of runs; without one, threads of this process do. */
  readonly queue?: QueueSettings;
  /** Logs that the page may follow as they grow: they are only read. */
  readonly watch?: readonly string[];
  /** Folder of the built page; without one, that of this installation. */
  readonly page?: string;
}

export interface Serving {
  readonly url: string;
  /** Reads the certificate and its key again; what cannot be used is warned of, and the old one stays. */
  renewCertificate(): void;
  readonly runs: Runs;
  /** Starts a run of a study on the shelf. */
  runListed(id: string): Promise<string>;
  close(): Promise<void>;
}

export const USUAL_PORT = 8417;
/** Milliseconds between two looks at whether another program has restored a backup. */
const LOOK_EVERY = 2000;

/**
 * Starts the server.
 *
 * @throws {Fault} `bad-input`: what reaching beyond this machine needs is missing, or a file for it cannot be used; a port that cannot be had; `store-in-use`; `cannot-keep`: a store that is damaged or cannot be written
 */
export async function serve(options: ServeOptions): Promise<Serving> {
  const { users, token, tls, proxies = [], warn } = options;
  const reach = reachOf({ ...options, asks: users !== undefined || token !== undefined });
  const secrets = tls === undefined ? null : readTls(tls, reach.statedNames, warn);
  const access =
    users === undefined && token === undefined
      ? OPEN
      : openAccess({
          users: users === undefined ? null : currentUsers(users, warn),
          token: token ?? null,
          secure: reach.secure,
        });
  if (reach.warning !== null) warn(reach.warning);
  const root = packageRoot();
  // One pool for all runs, started with the first and warm from then on.
  let opening: Promise<Pool> | undefined;
  const pool = (): Promise<Pool> => (opening ??= openPool(options.workers));
  const far = options.queue === undefined ? null : await openFarDrawing(options.queue, warn);
  const lock = options.store === null ? null : takeLock(options.store);
  const store = openStore({ folder: options.store, warn: options.warn });
  const assembler = openAssembler();
  const runs = new Runs(pool, store, options.warn, options.limits, assembler, far?.fleet);
  const shelf = studyShelf(join(root, "examples"));
  const checker = openChecker();
  const watched = watchedLogs(options.watch ?? []);
  const reader = openReader();
  const documents = openDocuments();
  const app = createApp({
    runs,
    shelf,
    desk: store.desk,
    checker,
    verifier: openVerifier(pool, undefined, assembler),
    reader,
    documents,
    evidence: store.evidence,
    watched,
    workers: options.workers,
    queue: far === null ? null : () => far.view.read(),
    page: options.page ?? join(root, "dist/viewer"),
    hosts: reach.hosts,
    access,
    publicOrigin: reach.publicOrigin,
    proxies,
    tls: secrets !== null,
    log: options.log ?? quiet,
    health: () => healthOf(store, options.store, opening),
  });
  const server = secrets === null ? createServer(app) : createTlsServer(secrets, app);
  // Longer than clients and proxies keep a connection that nothing is sent on (60 s is usual): the side that asks closes it, or
  // a request would meet a connection that is just being closed.
  server.keepAliveTimeout = 75_000;
  try {
    await listen(server, options);
  } catch (error) {
    store.close();
    lock?.release();
    await far?.close();
    throw error;
  }
  const { address, port, family } = server.address() as AddressInfo;
  const url = `${secrets === null ? "http" : "https"}://${family === "IPv6" ? `[${address}]` : address}:${port}/`;
  lock?.publish(url);
  runs.restore();
  const looking = setInterval(() => {
    try {
      runs.lookElsewhere();
    } catch (error) {
      warn(`The store cannot be read: ${inWords(error)}`);
    }
  }, LOOK_EVERY).unref();
  return {
    url,
    runs,
    renewCertificate() {
      if (tls === undefined) return;
      try {
        (server as TlsServer).setSecureContext(readTls(tls, reach.statedNames, warn));
      } catch (error) {
        warn(`The old certificate stays in use: ${inWords(error)}`);
      }
    },
    async runListed(id) {
      return runs.start(await loadStudyDocument(await shelf.read(id), null), id);
    },
    async close() {
      clearInterval(looking);
      runs.stop();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
      await Promise.all([
        opening?.then((opened) => opened.close()),
        far?.close(),
        assembler.close(),
        checker.close(),
        reader.close(),
        documents.close(),
      ]);
      watched.close();
      store.close();
      lock?.release();
    },
  };
}

/** Other machines that draw, and what they are at. Nothing of it is loaded without a queue. @throws {Fault} `queue-unreachable` */
async function openFarDrawing(queue: QueueSettings, warn: (message: string) => void) {
  const [{ openFleet }, { openQueueView }] = await Promise.all([
    import("./queue/fleet.ts"),
    import("./queue/status.ts"),
  ]);
  const view = await openQueueView(queue);
  let opening: Promise<Fleet> | undefined;
  const fleet = async (): Promise<Fleet> => {
    // One that could not be reached is tried again by the next run.
    opening ??= openFleet(queue, { notice: warn }).catch((error: unknown) => {
      opening = undefined;
      throw error;
    });
    return opening;
  };
  return {
    view,
    fleet,
    async close(): Promise<void> {
      await Promise.allSettled([opening?.then((one) => one.close()), view.close()]);
    },
  };
}

/** A fault with the place and the value it names, in one line. */
function inWords(error: unknown): string {
  const { message, problems } = reportOf(error);
  return [message, ...problems.map(describeProblem)].join(" ");
}

async function listen(server: Server | TlsServer, { host, port }: ServeOptions): Promise<void> {
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

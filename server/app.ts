import { join } from "node:path";
import express, { Router, type Express, type RequestHandler } from "express";
import type { Logger } from "pino";
import type { ServerHealth } from "../viewer/api/health.ts";
import { OPEN, type Access } from "./access/access.ts";
import { openChecker } from "./checks/checker.ts";
import { openReader } from "./checks/reader.ts";
import { openDocuments } from "./documents/documents.ts";
import { Fault } from "./errors.ts";
import { guard, liveAnswers } from "./http/guard.ts";
import { protectiveHeaders } from "./http/headers.ts";
import { jsonBody } from "./http/json-body.ts";
import { quiet } from "./http/log.ts";
import { openMetrics } from "./http/metrics.ts";
import { ownSite } from "./http/own-site.ts";
import { refuse } from "./http/refuse.ts";
import { logRequests } from "./http/request-log.ts";
import { signIn, signOut, type SignInLimits } from "./http/sign-in.ts";
import { openStore } from "./store/open-store.ts";
import type { Operation } from "./openapi/described.ts";
import { documentOf, type OpenApiDocument } from "./openapi/document.ts";
import { guarded } from "./routes/guarded.ts";
import { routes } from "./routes/index.ts";
import { observation } from "./routes/observation.ts";
import type { EvidenceStore } from "./store/evidence.ts";
import { watchedLogs, type WatchedLogs } from "./watch/watched-logs.ts";
import type { Dependencies } from "./routes/route.ts";
import { openVerifier } from "./verify/verifier.ts";

export interface AppOptions extends Omit<
  Dependencies,
  "document" | "documents" | "evidence" | "watched" | "checker" | "reader" | "verifier" | "signOut" | "desk" | "queue"
> {
  /** Logs that may be followed; without, none. */
  readonly watched?: WatchedLogs;
  /** Where evidence of one's own is kept; without one, in memory. */
  readonly evidence?: EvidenceStore;
  /** What the workers of a queue are at; without it there is no queue. */
  readonly queue?: Dependencies["queue"];
  /** Folder of the built page. */
  readonly page: string;
  /** Host names this server answers to; any other is refused, so that a foreign page cannot reach it by renaming itself. */
  readonly hosts: ReadonlySet<string> | null;
  /** Own studies, drafts and defaults; without it, one in memory. */
  readonly desk?: Dependencies["desk"];
  /** Checks studies; without one, the app opens its own, whose thread ends by itself. */
  readonly checker?: Dependencies["checker"];
  /** Verifies records; without one, this thread draws the trials. */
  readonly verifier?: Dependencies["verifier"];
  /** Reads files that requests bring; without one, the app opens its own, whose thread ends by itself. */
  readonly reader?: Dependencies["reader"];
  /** Makes documents of records; without one, the app opens its own, whose thread ends by itself. */
  readonly documents?: Dependencies["documents"];
  /** Who may ask; without it anyone, which is for a server of one machine alone. */
  readonly access?: Access;
  /** The origin by which people reach it through a proxy. */
  readonly publicOrigin?: string | null;
  /** Addresses of proxies whose word on who asks is taken. */
  readonly proxies?: readonly string[];
  /** Whether the server itself speaks TLS. */
  readonly tls?: boolean;
  readonly signInLimits?: SignInLimits;
  /** Without one, nothing is logged. */
  readonly log?: Logger;
  /** How the server's parts are, for `/healthz`; without it there is none. */
  readonly health?: () => Promise<ServerHealth>;
}

/** The server as an Express app: testable without a port. */
export function createApp(options: AppOptions): Express {
  const app = express();
  const log = options.log ?? quiet;
  const { access = OPEN, publicOrigin = null, proxies = [], tls = false } = options;
  const metrics = openMetrics();
  const live = liveAnswers();
  app.set("trust proxy", proxies.length === 0 ? false : [...proxies]);
  app.use(logRequests(log));
  app.use(metrics.count);
  app.use(protectiveHeaders(tls));
  app.use(answersTo(options.hosts));
  app.use(["/api", "/healthz", "/metrics"], ownSite(publicOrigin));
  app.use(signIn(access, options.page, publicOrigin, options.signInLimits));
  app.use(guard(access, live));
  const operations: Operation[] = [];
  const add = (operation: Operation): void => void operations.push(operation);
  let document: OpenApiDocument | undefined;
  const dependencies = {
    ...options,
    queue: options.queue ?? null,
    watched: options.watched ?? watchedLogs([]),
    evidence: options.evidence ?? openStore({ folder: null }).evidence,
    checker: options.checker ?? openChecker(),
    verifier: options.verifier ?? openVerifier(undefined),
    reader: options.reader ?? openReader(),
    documents: options.documents ?? openDocuments(),
    desk: options.desk ?? openStore({ folder: null }).desk,
    document: () => (document ??= documentOf(operations, access.secure)),
    signOut: signOut(access, live),
  };
  const observed = Router();
  observation(metrics, options.health ?? null)(guarded(observed, "", add), dependencies);
  app.use(observed);
  app.use(jsonBody);
  const api = Router();
  const added = guarded(api, "/api", add);
  for (const register of routes) register(added, dependencies);
  app.use("/api", api);
  app.use("/assets", express.static(join(options.page, "assets"), { cacheControl: false, setHeaders: keptByBrowsers }));
  app.use(express.static(options.page, { index: "index.html", maxAge: 0 }));
  app.use((request) => {
    throw new Fault("no-such-route", `There is nothing at ${request.method} ${request.originalUrl}.`);
  });
  app.use(refuse(log));
  return app;
}

/** Answers to the server's own names alone. */
const answersTo =
  (hosts: ReadonlySet<string> | null): RequestHandler =>
  (request, _response, next) => {
    // HTTP/1.0 allows a request without Host. What a proxy forwards of it is not taken: anyone can write that header.
    const name = request.headers.host?.replace(/:\d*$/, "").toLowerCase();
    if (name === undefined) throw new Fault("bad-request", "The request has no Host header; expected one.");
    if (hosts !== null && !hosts.has(name))
      throw new Fault("other-host", `This server does not answer to the name ${name}.`);
    next();
  };

/**
 * What the build names by its content is never asked for again, but by who may read the page alone: no proxy keeps it.
 *
 * The worker that previews in the page, and it alone, may write its model's loop out as code: a worker goes by the policy
 * its own script came with. The page itself stays without.
 */
function keptByBrowsers(response: { setHeader(name: string, value: string): unknown }, path: string): void {
  response.setHeader("cache-control", "private, max-age=31536000, immutable");
  if (/[/\\]worker-[^/\\]*\.js$/.test(path))
    response.setHeader("content-security-policy", "default-src 'self'; script-src 'self' 'unsafe-eval'");
}

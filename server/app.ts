import express, { Router, type ErrorRequestHandler, type Express, type RequestHandler } from "express";
import { Fault, FAULTS, reportOf } from "./errors.ts";
import { routes } from "./routes/index.ts";
import type { Dependencies } from "./routes/route.ts";

export interface AppOptions extends Dependencies {
  /** Folder of the built page. */
  readonly page: string;
  /** Host names this server answers to; any other is refused, so that a foreign page cannot reach it by renaming itself. */
  readonly hosts: ReadonlySet<string> | null;
}

/** The server as an Express app: testable without a port. */
export function createApp(options: AppOptions): Express {
  const app = express();
  app.disable("x-powered-by");
  app.use(guard(options.hosts));
  app.use(express.json({ limit: "16mb", strict: false }));
  const api = Router();
  for (const register of routes) register(api, options);
  api.use((request) => {
    throw new Fault("no-such-route", `There is nothing at ${request.method} ${request.originalUrl}.`);
  });
  app.use("/api", api);
  app.use(express.static(options.page, { index: "index.html", maxAge: 0, setHeaders: allowGeneratedCode }));
  app.use(onError);
  return app;
}

const guard =
  (hosts: ReadonlySet<string> | null): RequestHandler =>
  (request, response, next) => {
    response.set({
      "content-security-policy":
        "default-src 'self'; img-src 'self' data: blob:; style-src 'self' 'unsafe-inline'; frame-ancestors 'none'",
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
      "cross-origin-resource-policy": "same-origin",
    });
    if (hosts !== null && !hosts.has(request.hostname.toLowerCase())) {
      throw new Fault("no-such-route", `This server does not answer to the name ${request.hostname}.`);
    }
    next();
  };

/**
 * The worker that previews in the page, and it alone, may write its model's loop out as code: a worker goes by the policy
 * its own script came with. The page itself stays without.
 */
function allowGeneratedCode(response: { setHeader(name: string, value: string): unknown }, path: string): void {
  if (/[/\\]worker-[^/\\]*\.js$/.test(path))
    response.setHeader("content-security-policy", "default-src 'self'; script-src 'self' 'unsafe-eval'");
}

// Express knows an error handler by its four parameters.
const onError: ErrorRequestHandler = (error: unknown, _request, response, next) => {
  if (response.headersSent) {
    next(error);
    return;
  }
  const report = reportOf(fromParser(error) ?? error);
  if (error instanceof Fault && error.retryAfter !== null) response.set("retry-after", String(error.retryAfter));
  response.status(FAULTS[report.code].status).json({ error: report });
};

/** Errors of the body parser, in the words of Trialband. */
function fromParser(error: unknown): Fault | null {
  const { type, message } = (error ?? {}) as { type?: string; message?: string };
  if (type === "entity.parse.failed") return new Fault("not-json", `The body is not JSON: ${message}`);
  if (type === "entity.too.large") return new Fault("too-large", "The body is larger than 16 MB.");
  return null;
}

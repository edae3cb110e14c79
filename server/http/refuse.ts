import type { ErrorRequestHandler } from "express";
import type { Logger } from "pino";
import type { Refusal } from "../../viewer/api/fault.ts";
import { Fault, FAULTS, reportOf, type FaultCode, type FaultReport } from "../errors.ts";
import { requestId } from "./request-log.ts";

/** Seconds after which another try is worth while, where the fault itself does not know. */
const RETRY_AFTER = 10;

/** A fault as problem details, RFC 9457, 3.1. */
export const refusalOf = ({ code, message, problems }: FaultReport, id: string): Refusal => ({
  type: `/api/problems/${code}`,
  title: FAULTS[code].title,
  status: FAULTS[code].status,
  detail: message,
  instance: `urn:uuid:${id}`,
  code,
  problems,
});

/**
 * Answers every request that was refused or that failed: the one place where an error becomes an answer. Faults of the
 * server go to the log with their trace; what a person sent does not.
 */
export const refuse =
  (log: Logger): ErrorRequestHandler =>
  // Express knows an error handler by its four parameters.
  (error: unknown, request, response, next) => {
    const fault = fromExpress(error) ?? error;
    const found = reportOf(fault);
    const { status } = FAULTS[found.code];
    const id = requestId(response);
    if (status >= 500 && found.code !== "busy")
      log.error({ id, method: request.method, path: request.path, code: found.code, err: error }, found.message);
    // The words of an error that nobody foresaw are for the log: they may show what a stranger should not know.
    const report = found.code === "internal" ? { ...found, message: unforeseen(id) } : found;
    if (response.headersSent) {
      next(error);
      return;
    }
    if (status === 429 || status === 503)
      response.set("retry-after", String((fault instanceof Fault ? fault.retryAfter : null) ?? RETRY_AFTER));
    response
      .status(status)
      .set("cache-control", "no-store")
      .type("application/problem+json")
      .send(JSON.stringify(refusalOf(report, id)));
  };

const unforeseen = (id: string): string =>
  `Trialband failed on this request, which is its own fault. Its log has the reason at the request ${id}.`;

const CODES: Readonly<Record<number, FaultCode>> = {
  400: "bad-request",
  403: "no-such-route",
  404: "no-such-route",
  412: "changed-meanwhile",
  413: "too-large",
  415: "unsupported-media-type",
  416: "range-not-satisfiable",
};

/** A fault of the client that Express, its parsers or its file server found, in the words of Trialband. */
function fromExpress(error: unknown): Fault | null {
  if (!(error instanceof Error) || error instanceof Fault) return null;
  const { type, status, message } = error as Error & { readonly type?: string; readonly status?: number };
  if (type === "entity.parse.failed") return new Fault("not-json", `The body is not JSON: ${message}.`);
  if (type === "entity.too.large") {
    const { limit } = error as { readonly limit?: number };
    return new Fault("too-large", `The body is larger than ${Math.round((limit ?? 0) / 2 ** 20)} MB.`);
  }
  if (typeof status !== "number" || status < 400 || status > 499) return null;
  const code = CODES[status] ?? "bad-request";
  if (code === "no-such-route") return new Fault(code, "There is nothing at this address.");
  return new Fault(code, `The request cannot be read: ${message}.`);
}

import { InputError, ModelError, show, type Problem } from "../engine/index.ts";
import { missingPackage } from "./missing-package.ts";

/** Every fault the server and the command line report: its code, the HTTP status, the exit code, and its kind in words. */
export const FAULTS = {
  "bad-input": { status: 422, exit: 2, title: "Something in the request or study cannot be used" },
  "not-json": { status: 400, exit: 2, title: "Not JSON" },
  "too-large": { status: 413, exit: 2, title: "Too large" },
  "no-such-file": { status: 404, exit: 2, title: "No such file" },
  "no-such-model": { status: 422, exit: 2, title: "No such model" },
  "no-such-study": { status: 404, exit: 2, title: "No such study" },
  "no-such-draft": { status: 404, exit: 2, title: "No such draft" },
  "no-such-evidence": { status: 404, exit: 2, title: "No such survey of one's own" },
  "no-such-calibration": { status: 404, exit: 2, title: "No such calibration" },
  "no-such-run": { status: 404, exit: 2, title: "No such run" },
  "no-such-measurand": { status: 404, exit: 2, title: "No such measurand" },
  "no-such-user": { status: 404, exit: 2, title: "No such user" },
  "no-such-route": { status: 404, exit: 2, title: "Nothing at this address" },
  "model-does-not-load": { status: 422, exit: 2, title: "The model does not load" },
  "model-not-finite": { status: 422, exit: 1, title: "The model has no finite value" },
  "key-used": { status: 422, exit: 1, title: "The key came with another request" },
  "not-finished": { status: 409, exit: 1, title: "The run is not finished" },
  "changed-meanwhile": { status: 412, exit: 1, title: "Changed meanwhile" },
  "queue-unreachable": { status: 503, exit: 1, title: "The queue cannot be used" },
  busy: { status: 503, exit: 1, title: "Busy" },
  "queue-full": { status: 429, exit: 1, title: "Too many runs wait" },
  "took-too-long": { status: 409, exit: 1, title: "The run took too long" },
  cancelled: { status: 409, exit: 130, title: "Cancelled" },
  "worker-lost": { status: 500, exit: 1, title: "A worker was lost" },
  "cannot-write": { status: 500, exit: 1, title: "Cannot be written" },
  "cannot-keep": { status: 507, exit: 1, title: "Cannot be kept" },
  "store-in-use": { status: 409, exit: 1, title: "The store is in use" },
  "store-altered": { status: 500, exit: 1, title: "The store was altered" },
  "bad-request": { status: 400, exit: 1, title: "Not a request that can be read" },
  "range-not-satisfiable": { status: 416, exit: 1, title: "No such range of bytes" },
  "unsupported-media-type": { status: 415, exit: 1, title: "A type, character set or encoding that is not read" },
  "sign-in-needed": { status: 401, exit: 1, title: "Sign in first" },
  "not-allowed": { status: 403, exit: 1, title: "Not allowed" },
  "cross-site": { status: 403, exit: 1, title: "Asked by the page of another site" },
  "other-host": { status: 421, exit: 1, title: "Another server is meant" },
  "not-installed": { status: 500, exit: 1, title: "A package is not installed" },
  internal: { status: 500, exit: 1, title: "A fault of Trialband" },
} as const;

export type FaultCode = keyof typeof FAULTS;

/** A fault as plain data: what crosses threads and the network. */
export interface FaultReport {
  readonly code: FaultCode;
  readonly message: string;
  readonly problems: readonly Problem[];
}

/** A fault with its code. */
export class Fault extends Error {
  readonly code: FaultCode;
  readonly problems: readonly Problem[];
  /** Seconds after which a request that was refused for the moment is worth another try. */
  readonly retryAfter: number | null;

  constructor(code: FaultCode, message: string, problems: readonly Problem[] = [], retryAfter: number | null = null) {
    super(message);
    this.name = "Fault";
    this.code = code;
    this.problems = problems;
    this.retryAfter = retryAfter;
  }
}

const CANCELLED = "The run was cancelled.";

/** A run that somebody ended. */
export const cancelled = (): Fault => new Fault("cancelled", CANCELLED);

/** Any error as a report; what is not one of Trialband becomes `internal`. */
export function reportOf(error: unknown): FaultReport {
  if (error instanceof Fault) return { code: error.code, message: error.message, problems: error.problems };
  if (error instanceof InputError) {
    const count = error.problems.length;
    return {
      code: "bad-input",
      message: count === 1 ? "One thing in the study cannot be used." : `${count} things in the study cannot be used.`,
      problems: error.problems,
    };
  }
  if (error instanceof ModelError) return { code: "model-not-finite", message: error.message, problems: [] };
  if (error instanceof Error && error.name === "AbortError")
    return { code: "cancelled", message: CANCELLED, problems: [] };
  const missing = missingPackage(error);
  if (missing !== null) return { code: "not-installed", message: missing, problems: [] };
  return { code: "internal", message: error instanceof Error ? error.message : String(error), problems: [] };
}

/** The error behind a report that came from another thread. */
export const faultFrom = ({ code, message, problems }: FaultReport): Fault => new Fault(code, message, problems);

/** A request that cannot be used, with its one problem. */
export const refused = (place: string, value: unknown, accepted: string): Fault =>
  new Fault("bad-input", "The request cannot be used.", [{ place, value: show(value), accepted }]);

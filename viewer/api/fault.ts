import type { Problem } from "../../engine/index.ts";

/** What went wrong, as plain data. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  readonly problems: readonly Problem[];
}

/** The answer of every route that refuses a request: `application/problem+json`, RFC 9457. */
export interface Refusal {
  /** Address of the fault's description, `/api/problems/` and its code. */
  readonly type: string;
  /** The kind of fault in words, the same for each of its kind. */
  readonly title: string;
  readonly status: number;
  /** What went wrong this time. */
  readonly detail: string;
  /** This occurrence: the request's id, as in the header X-Request-Id and in the server's log. */
  readonly instance: string;
  readonly code: string;
  readonly problems: readonly Problem[];
}

/** `GET /api/problems/:code`: a kind of fault. */
export interface ProblemKind {
  readonly code: string;
  readonly status: number;
  readonly title: string;
}

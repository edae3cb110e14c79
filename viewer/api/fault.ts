import type { Problem } from "../../engine/index.ts";

/** What went wrong, as plain data. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  readonly problems: readonly Problem[];
}

/** The answer of every route that refuses a request. */
export interface Refusal {
  readonly error: Fault;
}

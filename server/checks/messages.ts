import type { Problem } from "../../engine/index.ts";
import type { FaultReport } from "../errors.ts";

/** A task of the thread of checks: `{ study }` as JSON, which is sent in a fraction of the time of an object. */
export type CheckTask = string;

/** What the thread of checks answers for a study's document. */
export type CheckAnswer =
  | { readonly ok: true; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly report: FaultReport };

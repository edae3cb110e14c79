import type { Problem } from "../../engine/index.ts";
import type { FaultReport } from "../errors.ts";
import type { Explored } from "./exploration-of.ts";

/**
 * A task of the thread of checks: `{ study }` as JSON, which is sent in a fraction of the time of an object, and `{ study,
 * points }` for a quick look.
 */
export type CheckTask = string;

/** What the thread of checks answers for a study's document. */
export type CheckAnswer =
  | { readonly ok: true; readonly problems: readonly Problem[]; readonly explored: Explored["explored"] }
  | { readonly ok: false; readonly report: FaultReport };

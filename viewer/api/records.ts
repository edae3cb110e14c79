import type { RunRecord } from "../../engine/index.ts";

/** `POST /api/records`: a filed record in today's format. */
export interface ShownRecord {
  readonly record: RunRecord;
  /** What its digests say, as a sentence. */
  readonly seal: string;
}

import { type RunRecord } from "../../engine/index.ts";
import { FORMAT } from "../../engine/internal.ts";

/** A record as the page expects it, whichever version filed it. */
export async function inTodaysFormat(record: RunRecord | null, id: string): Promise<RunRecord | null> {
  if (record === null || record.format === FORMAT) return record;
  const { openDocument } = await import("../record/open.ts");
  return openDocument(record, `The record of run ${id}`).record;
}

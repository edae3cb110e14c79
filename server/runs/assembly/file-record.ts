import { type Prepared } from "../../../engine/index.ts";
import { assembleRecord, type Accumulation } from "../../../engine/internal.ts";
import { sealRecord, type SealedRecord } from "../../record/seal.ts";
import { writtenRecord } from "../../record/written.ts";
import { verdictOf } from "../live-run.ts";
import type { FiledRecord, Filing } from "./messages.ts";

/** What only the thread that began a run knows of it. */
type Begun = Omit<Filing, "recipe" | "gathered">;

/** The record of a run, whole and sealed. */
export function wholeRecord(
  prepared: Prepared,
  gathered: Accumulation,
  { sweep, compared, workers, began, module }: Begun,
): SealedRecord {
  const record = assembleRecord(prepared, gathered, true, sweep, compared);
  const environment = {
    startedAt: new Date(began).toISOString(),
    seconds: Math.round(performance.timeOrigin + performance.now() - began) / 1000,
    workers,
    runtime: `Node.js ${process.version}, V8 ${process.versions.v8}, ${process.platform} ${process.arch}`,
  };
  return sealRecord({ ...record, environment }, module);
}

/** The record of a run, written out. */
export function fileRecord(prepared: Prepared, gathered: Accumulation, begun: Begun): FiledRecord {
  const record = wholeRecord(prepared, gathered, begun);
  return { written: writtenRecord(record), trials: record.trials.count, verdict: verdictOf(record) };
}

import { type Prepared } from "../../engine/index.ts";
import { assembleRecord, type Accumulation } from "../../engine/internal.ts";
import { Fault, reportOf } from "../errors.ts";
import type { LoadedStudy } from "../shelves/study.ts";
import type { Ending } from "../store/runs.ts";
import { writtenRecord } from "../record/written.ts";
import type { Store } from "../store/store.ts";
import type { Assembler } from "./assembly/assembler.ts";
import type { FiledRecord } from "./assembly/messages.ts";
import { openCheckpoints } from "./checkpointing.ts";
import type { Fleet } from "./far-drawing.ts";
import type { RunLimits } from "./limits.ts";
import { tell, verdictOf, type LiveRun } from "./live-run.ts";
import type { Pool } from "./pool/pool.ts";
import { runAndFile, runStudy, type KeptSample, type RunOptions } from "./run-study.ts";

const SNAPSHOT_EVERY = 300;
const PROGRESS_EVERY = 100;

/** What a run is carried out with. */
export interface Means {
  readonly pool: () => Promise<Pool>;
  /** Assembles records on another thread; without one this thread does. */
  readonly assembler: Assembler | undefined;
  /** Other machines, which draw in place of the pool. */
  readonly fleet?: (() => Promise<Fleet>) | undefined;
  readonly store: Store;
  readonly limits: RunLimits;
  readonly warn: (message: string) => void;
  /** The study with its model. */
  readonly load: () => Promise<LoadedStudy>;
}

/**
 * Carries a run out, from its last checkpoint if it has one, within its time, and informs its followers.
 *
 * @returns how it ended, and its sample if it finished
 */
export async function carryOut(
  run: LiveRun,
  { pool, assembler, fleet, store, limits, warn, load }: Means,
): Promise<{ readonly ending: Ending; readonly finished: KeptSample | null }> {
  const { id } = run.head;
  const checkpoints = openCheckpoints(store, id, limits.checkpointEvery, warn);
  let late = false;
  const timer = setTimeout(() => {
    late = true;
    run.abort.abort();
  }, limits.seconds * 1000);
  run.head = { ...run.head, state: "running" };
  try {
    store.begin(id);
    // What asked for the run is answered before its study is prepared.
    await new Promise((resolve) => setImmediate(resolve));
    const loaded = await load();
    const from = checkpoints.resume();
    const { filed, ...finished } = await filedRun(loaded, assembler, {
      pool,
      fleet,
      signal: run.abort.signal,
      onProgress: progressTo(run),
      ...(from === null ? {} : { from }),
      onGathered: (gathered) => {
        run.keepNow = () => checkpoints.keep(run.head.trials, gathered());
        checkpoints.offer(run.head.trials, gathered);
      },
    });
    const { written, ...head } = filed;
    return { ending: { state: "finished", ...head, record: written, error: null }, finished };
  } catch (cause) {
    const error = reportOf(late ? tookTooLong(limits) : cause);
    const state = error.code === "cancelled" ? "cancelled" : "failed";
    return { ending: { state, trials: run.head.trials, verdict: null, record: null, error }, finished: null };
  } finally {
    checkpoints.close();
    clearTimeout(timer);
    run.keepNow = () => undefined;
  }
}

async function filedRun(
  loaded: LoadedStudy,
  assembler: Assembler | undefined,
  options: RunOptions,
): Promise<KeptSample & { readonly filed: FiledRecord }> {
  if (assembler !== undefined) return runAndFile(loaded, { ...options, assembler });
  const { record, ...sample } = await runStudy(loaded, options);
  return {
    ...sample,
    filed: { written: writtenRecord(record), trials: record.trials.count, verdict: verdictOf(record) },
  };
}

const tookTooLong = ({ seconds }: RunLimits): Fault =>
  new Fault(
    "took-too-long",
    `The run went on for ${seconds} s, the most that this server gives a run. Ask for fewer trials, or start the server with a longer --longest-run.`,
  );

/** Notes how far a run is, and informs its followers from time to time. */
function progressTo(run: LiveRun): (gathered: Accumulation, prepared: Prepared) => void {
  let informed = 0;
  let shown = performance.now();
  return (gathered, prepared) => {
    const { trials } = gathered;
    const { limit } = prepared;
    run.head = { ...run.head, trials, limit };
    const now = performance.now();
    if (now - informed < PROGRESS_EVERY || run.followers.size === 0) return;
    informed = now;
    tell(run, { type: "progress", trials, limit });
    if (now - shown < SNAPSHOT_EVERY) return;
    tell(run, { type: "snapshot", record: assembleRecord(prepared, gathered, false) });
    // From the end of the work, so that a costly snapshot does not crowd out the trials.
    shown = performance.now();
  };
}

import { randomUUID } from "node:crypto";
import { prepare, type Model, type Prepared, type RunRecord } from "../../engine/index.ts";
import {
  Accumulation,
  type AccumulationState,
  assembleRecord,
  batchBytes,
  EXPLANATION_TRIALS,
  needsComparison,
  openComparison,
  openTrials,
  requirePure,
  studiesOfSweep,
  sweepRecord,
  type Batch,
  type Compared,
} from "../../engine/internal.ts";
import { cancelled } from "../errors.ts";
import { loadModel, placeOf } from "../shelves/model.ts";
import { sealRecord, type SealedRecord } from "../record/seal.ts";
import type { KeptStudy, LoadedStudy } from "../shelves/study.ts";
import { giveRooms, takeRoom } from "./pool/rooms.ts";
import type { Recipe } from "./pool/messages.ts";
import type { Pool } from "./pool/pool.ts";

/** What is gathered of a run: plain data, from which it goes on to the same record, bit for bit. */
export interface GatheredRun {
  readonly study: AccumulationState;
  /** Records of the points of the study's sweep that are done. */
  readonly points: readonly RunRecord[];
  /** The point that is being drawn. */
  readonly point: AccumulationState | null;
}

export interface RunOptions {
  /** Draws trials on worker threads; without it this thread draws them all. */
  readonly pool?: (() => Promise<Pool>) | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Called as trials are added, with the most there will be. `gathered` can be asked for a snapshot. */
  readonly onProgress?: ((gathered: Accumulation, prepared: Prepared) => void) | undefined;
  /** Trials this thread draws before it asks for the pool: a short run never waits for threads to start. */
  readonly aloneFirst?: number;
  /**
   * Trials after which an adaptive run stops, then those of the points of its sweep in order, whether their figures have
   * settled or not: a repetition that is held against a record has as many.
   */
  readonly stopAt?: readonly number[];
  /** What an interrupted run of the same study has gathered. */
  readonly from?: GatheredRun;
  /** Called after each batch. What it is given is costly to ask, and may be asked until the next batch or the run's end. */
  readonly onGathered?: (gathered: () => GatheredRun) => void;
}

export interface FinishedRun {
  readonly record: SealedRecord;
  readonly gathered: Accumulation;
  /** Releases the trials: their memory serves the next run. `gathered` can be asked for nothing after. */
  readonly release: () => void;
}

/** Trials a task carries: enough to outweigh a message, few enough to cancel at once and to settle without a surplus. */
const FEWEST_IN_TASK = 50_000;
const MOST_IN_TASK = 500_000;
/** Tasks a worker has of a run of known length, so that none waits long for the last. */
const TASKS_A_WORKER = 16;
/** Milliseconds a worker has to come back after the request to stop. */
const GRACE = 500;

/**
 * Runs a study; its model is loaded here if it is not yet. Batches are drawn here or on workers and added in their order, so the record reproduces exactly, bit for bit, either
 * way; only its `environment` shows how it was made.
 *
 * @throws {InputError | ModelError | Fault}
 */
export async function runStudy(toRun: KeptStudy | LoadedStudy, options: RunOptions = {}): Promise<FinishedRun> {
  const { study, reference } = toRun;
  const startedAt = new Date();
  const clock = performance.now();
  const model = "model" in toRun ? toRun.model : await loadModel(reference);
  // What comes with Trialband is pure; a model of one's own is checked each time.
  if (reference.kind === "module") requirePure(model, prepare(model, study).source);
  const points = studiesOfSweep(study);
  // Before the trials, so that a point that cannot be used is reported at once.
  for (const point of points) {
    prepare(model, point);
    await breathe();
  }
  const { from, onGathered, ...drawing } = options;
  const { prepared, gathered, workers, compared, release } = await drawStudy(
    model,
    { study, reference },
    {
      ...drawing,
      from: from?.study,
      onBatch: (own) => onGathered?.(() => ({ study: own.state, points: [], point: null })),
    },
    true,
  );
  const records: RunRecord[] = [...(from?.points ?? [])];
  for (const [i, point] of points.entries()) {
    if (i < records.length) continue;
    const { stopAt, ...others } = drawing;
    const done = [...records];
    const run = await drawStudy(
      model,
      { study: point, reference },
      {
        ...others,
        ...(stopAt === undefined ? {} : { stopAt: stopAt.slice(i + 1) }),
        onProgress: undefined,
        from: (i === from?.points.length ? from.point : null) ?? undefined,
        onBatch: (own) => onGathered?.(() => ({ study: gathered.state, points: done, point: own.state })),
      },
      false,
    );
    records.push(assembleRecord(run.prepared, run.gathered, false));
    run.release();
  }
  const record = {
    ...assembleRecord(prepared, gathered, true, sweepRecord(study, records), compared),
    environment: {
      startedAt: startedAt.toISOString(),
      seconds: Math.round(performance.now() - clock) / 1000,
      workers,
      runtime: `Node.js ${process.version}, V8 ${process.versions.v8}, ${process.platform} ${process.arch}`,
    },
  };
  return { record: sealRecord(record, reference.kind === "module" ? reference : null), gathered, release };
}

export interface DrawOptions extends Omit<RunOptions, "from" | "onGathered"> {
  readonly from?: AccumulationState | undefined;
  readonly onBatch?: (gathered: Accumulation) => void;
}

export interface DrawnStudy {
  readonly prepared: Prepared;
  readonly gathered: Accumulation;
  readonly workers: number;
  readonly compared: Compared | undefined;
  /** Releases the trials: their memory serves the next run. `gathered` can be asked for nothing after. */
  readonly release: () => void;
}

/**
 * Draws a study's trials, here or on workers, until enough.
 *
 * @param explained also compare propagations for the explanation, here, while workers draw
 */
export async function drawStudy(
  model: Model,
  { study, reference }: KeptStudy,
  options: DrawOptions,
  explained: boolean,
): Promise<DrawnStudy> {
  const prepared = prepare(model, study);
  const stopAt = study.trials === "adaptive" ? options.stopAt?.[0] : undefined;
  const gathered = new Accumulation(prepared, stopAt, options.from);
  const add = (batch: Batch): void => {
    gathered.add(batch);
    options.onProgress?.(gathered, prepared);
    options.onBatch?.(gathered);
  };
  const alone = options.pool === undefined ? Infinity : (options.aloneFirst ?? 0);
  if (alone > 0) await drawAlone(prepared, gathered, add, alone, options.signal);
  if (gathered.next === 0 && options.from === undefined)
    return { prepared, gathered, workers: 1, compared: undefined, release: () => gathered.release() };
  const pool = await options.pool!();
  const comparing =
    explained && !prepared.source.leavesOut && needsComparison(prepared)
      ? compareMeanwhile(prepared, options.signal)
      : undefined;
  // Awaited below; if both fail, the trial that failed is reported.
  comparing?.catch(() => undefined);
  const held =
    gathered.next === 0 ? [] : await drawShared({ study, reference }, pool, prepared, gathered, add, options.signal);
  const compared = await comparing;
  return { prepared, gathered, workers: pool.workers, compared, release: () => releaseOnce(gathered, held) };
}

/** Lets events come through: an interrupt, a cancel, a worker's answer. */
const breathe = (): Promise<void> => new Promise<void>((resolve) => setImmediate(resolve));

async function compareMeanwhile(prepared: Prepared, signal: AbortSignal | undefined): Promise<Compared> {
  const comparison = openComparison(prepared, EXPLANATION_TRIALS);
  while (comparison.advance()) {
    await breathe();
    if (signal?.aborted) throw cancelled();
  }
  return comparison.result();
}

function releaseOnce(gathered: Accumulation, held: readonly SharedArrayBuffer[]): void {
  if (gathered.released) return;
  gathered.release();
  giveRooms(held);
}

async function drawAlone(
  prepared: Prepared,
  gathered: Accumulation,
  add: (batch: Batch) => void,
  limit: number,
  signal: AbortSignal | undefined,
): Promise<void> {
  const draw = openTrials(prepared.source);
  let breath = performance.now();
  for (let count = gathered.next; count > 0 && gathered.trials < limit; count = gathered.next) {
    add(draw(gathered.trials, count));
    if (performance.now() - breath > 50) {
      await breathe();
      breath = performance.now();
    }
    if (signal?.aborted) throw cancelled();
  }
}

async function drawShared(
  { study, reference }: KeptStudy,
  pool: Pool,
  prepared: Prepared,
  gathered: Accumulation,
  add: (batch: Batch) => void,
  outer: AbortSignal | undefined,
): Promise<readonly SharedArrayBuffer[]> {
  const job = randomUUID();
  const recipe = JSON.stringify({ model: placeOf(reference), study } satisfies Recipe);
  // Once the figures settle, a task fails or somebody cancels, what is still being drawn is not wanted. Workers look
  // at the flag between batches; only one that does not come back (a model that never returns) loses its thread.
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const abort = new AbortController();
  let grace: NodeJS.Timeout | undefined;
  const halt = (): void => {
    Atomics.store(stop, 0, 1);
    grace ??= setTimeout(() => abort.abort(), GRACE);
  };
  outer?.addEventListener("abort", halt);
  const { model, limit, batch: usual } = prepared;
  const inTask =
    study.trials === "adaptive"
      ? FEWEST_IN_TASK
      : Math.min(MOST_IN_TASK, Math.max(FEWEST_IN_TASK, limit / (TASKS_A_WORKER * pool.workers)));
  const rooms: SharedArrayBuffer[] = [];
  const held: SharedArrayBuffer[] = [];
  const roomSize = Math.ceil(inTask / usual) * batchBytes(Object.keys(model.measurands).length, usual);
  const pending: { readonly answer: Promise<readonly Batch[]>; readonly room: SharedArrayBuffer }[] = [];
  let next = gathered.trials;
  let enough = false;
  const ask = (): void => {
    const counts: number[] = [];
    const first = next;
    while (next < limit && next - first < inTask) {
      const count = Math.min(usual, limit - next);
      counts.push(count);
      next += count;
    }
    if (counts.length === 0) return;
    const room = rooms.pop() ?? takeRoom(roomSize);
    const answer = pool.draw({ job, recipe, first, counts, room, stop }, abort.signal);
    // Awaited in order below; a later one that fails meanwhile must not go unhandled.
    answer.catch(() => undefined);
    pending.push({ answer, room });
  };
  try {
    if (outer?.aborted) throw cancelled();
    for (let i = 0; i < 2 * pool.workers; i++) ask();
    while (pending.length > 0) {
      // It stays among those whose room is given back, until its batches are added.
      const { answer, room } = pending[0]!;
      const batches = await answer;
      if (outer?.aborted) throw cancelled();
      pending.shift();
      ask();
      // Kept trials stay where they were written, until the run is released; a task's first batch is kept longest.
      const kept = batches.length > 0 && gathered.keeps(batches[0]!.count);
      for (const batch of batches) if (gathered.next > 0) add(batch);
      (kept ? held : rooms).push(room);
      if (gathered.next === 0) break;
    }
    enough = true;
  } finally {
    if (pending.length > 0) {
      halt();
      await Promise.allSettled(pending.map(({ answer }) => answer));
    }
    clearTimeout(grace);
    outer?.removeEventListener("abort", halt);
    giveRooms(rooms);
    // A thread that had to be ended may still write for a moment; one that answers late was waited for above.
    if (!abort.signal.aborted) giveRooms(pending.map(({ room }) => room));
    if (!enough) {
      // Nobody can ask a run that was cancelled or failed for its trials. The collector does not see how much shared
      // memory it holds, so it is given back here.
      gathered.release();
      giveRooms(held);
    }
  }
  return held;
}

import { randomUUID } from "node:crypto";
import { prepare, type Model, type Prepared } from "../../engine/index.ts";
import {
  Accumulation,
  type AccumulationState,
  batchBytes,
  EXPLANATION_TRIALS,
  needsComparison,
  openComparison,
  openTrials,
  type Batch,
  type Compared,
} from "../../engine/internal.ts";
import { cancelled } from "../errors.ts";
import { NEVER } from "../one-thread.ts";
import { placeOf } from "../shelves/model.ts";
import type { KeptStudy } from "../shelves/study.ts";
import type { Fleet } from "./far-drawing.ts";
import type { Assembler } from "./assembly/assembler.ts";
import { breathe } from "./breathe.ts";
import { giveRooms, openWorkshop, takeRoom } from "./pool/rooms.ts";
import type { Recipe } from "./pool/messages.ts";
import type { Pool } from "./pool/pool.ts";

/** How trials are drawn. */
export interface Drawing {
  /** Draws trials on worker threads; without it this thread draws them all. */
  readonly pool?: (() => Promise<Pool>) | undefined;
  /** Draws all trials on other machines, in place of the pool. */
  readonly fleet?: (() => Promise<Fleet>) | undefined;
  /** Does what is heavy besides drawing on another thread; without it this thread does it. */
  readonly assembler?: Assembler | undefined;
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
}

/** Trials a task carries: enough to outweigh a message, few enough to cancel at once and to settle without a surplus. */
const FEWEST_IN_TASK = 50_000;
const MOST_IN_TASK = 250_000;
/** Tasks a worker has of a run of known length, so that none waits long for the last. */
const TASKS_A_WORKER = 16;
/** Tasks that each worker has at least, if that many batches are left: those of a slow model take minutes. */
const FEWEST_TASKS = 2;
/** Milliseconds that a thread draws alone at most where others can be had: a slow model is theirs at once. */
const MOST_ALONE = 1000;
/** Milliseconds a worker has to come back after the request to stop. */
const GRACE = 500;

/** What other threads draw or assemble a study from. */
export const recipeOf = ({ study, reference }: KeptStudy): Recipe => ({ model: placeOf(reference), study });

export interface DrawOptions extends Drawing {
  readonly from?: AccumulationState | undefined;
  /** The study tied to its model, if that was done before. */
  readonly prepared?: Prepared | undefined;
  /** One worker draws as much of the run as a task may carry. */
  readonly whole?: boolean;
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
  const prepared = options.prepared ?? prepare(model, study);
  if (options.fleet !== undefined)
    return drawFar(await options.fleet(), { study, reference }, prepared, options, explained);
  const stopAt = study.trials === "adaptive" ? options.stopAt?.[0] : undefined;
  const gathered = new Accumulation(prepared, stopAt, options.from);
  const add = (batch: Batch): void => {
    gathered.add(batch);
    options.onProgress?.(gathered, prepared);
    options.onBatch?.(gathered);
  };
  const alone = options.pool === undefined ? Infinity : (options.aloneFirst ?? 0);
  const until = options.pool === undefined ? Infinity : performance.now() + MOST_ALONE;
  const own = alone > 0 ? await drawAlone(prepared, gathered, add, { trials: alone, until }, options.signal) : [];
  if (gathered.next === 0 && options.from === undefined)
    return { prepared, gathered, workers: 1, compared: undefined, release: () => releaseOnce(gathered, own) };
  const pool = await options.pool!();
  const comparing = comparisonFor({ study, reference }, prepared, options, explained);
  const held =
    gathered.next === 0 ? [] : await drawShared({ study, reference }, pool, prepared, gathered, add, options);
  const compared = await comparing;
  return {
    prepared,
    gathered,
    workers: pool.workers,
    compared,
    release: () => releaseOnce(gathered, [...own, ...held]),
  };
}

/** Draws on other machines; what is told of the run is told after each of their answers. */
async function drawFar(
  fleet: Fleet,
  kept: KeptStudy,
  prepared: Prepared,
  options: DrawOptions,
  explained: boolean,
): Promise<DrawnStudy> {
  const { signal, from } = options;
  const far = await fleet.claim(kept, prepared, signal);
  // Both are of the same run: the one that has more goes on.
  const state = far.state !== null && far.state.trials > (from?.trials ?? 0) ? far.state : from;
  const gathered = new Accumulation(prepared, undefined, state);
  const comparing = comparisonFor(kept, prepared, options, explained);
  await far.draw(
    gathered,
    (batch) => gathered.add(batch),
    () => {
      options.onProgress?.(gathered, prepared);
      options.onBatch?.(gathered);
    },
    signal,
  );
  const compared = await comparing;
  return { prepared, gathered, workers: fleet.workers, compared, release: () => gathered.release() };
}

/** Begins the comparison for the explanation, if one is needed, while trials are drawn. */
function comparisonFor(
  kept: KeptStudy,
  prepared: Prepared,
  { assembler, signal }: DrawOptions,
  explained: boolean,
): Promise<Compared> | undefined {
  if (!explained || prepared.source.leavesOut || !needsComparison(prepared)) return undefined;
  const comparing =
    assembler?.compare({ recipe: recipeOf(kept) }, signal ?? NEVER) ?? compareMeanwhile(prepared, signal);
  // Awaited after the trials; if both fail, the trial that failed is reported.
  comparing.catch(() => undefined);
  return comparing;
}

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

/** @returns the memory that the batches lie in */
async function drawAlone(
  prepared: Prepared,
  gathered: Accumulation,
  add: (batch: Batch) => void,
  limits: { readonly trials: number; readonly until: number },
  signal: AbortSignal | undefined,
): Promise<readonly SharedArrayBuffer[]> {
  const { room, taken, begin, reuse } = openWorkshop();
  const draw = openTrials(prepared.source, room);
  let breath = performance.now();
  try {
    for (
      let count = gathered.next;
      count > 0 && gathered.trials < limits.trials && performance.now() < limits.until;
      count = gathered.next
    ) {
      const kept = gathered.keeps(count);
      begin();
      add(draw(gathered.trials, count));
      if (!kept) reuse();
      if (performance.now() - breath > 50) {
        await breathe();
        breath = performance.now();
      }
      if (signal?.aborted) throw cancelled();
    }
  } catch (error) {
    releaseOnce(gathered, taken);
    throw error;
  }
  return taken;
}

async function drawShared(
  { study, reference }: KeptStudy,
  pool: Pool,
  prepared: Prepared,
  gathered: Accumulation,
  add: (batch: Batch) => void,
  { signal: outer, whole = false }: Pick<DrawOptions, "signal" | "whole">,
): Promise<readonly SharedArrayBuffer[]> {
  const job = randomUUID();
  const recipe = JSON.stringify(recipeOf({ study, reference }));
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
      : whole
        ? Math.min(MOST_IN_TASK, limit)
        : Math.min(
            MOST_IN_TASK,
            Math.max(FEWEST_IN_TASK, limit / (TASKS_A_WORKER * pool.workers)),
            limit / (FEWEST_TASKS * pool.workers),
          );
  const rooms: SharedArrayBuffer[] = [];
  const held: SharedArrayBuffer[] = [];
  // Pieces of one size for tasks of every length, so that what a short run has released serves a long one.
  const inRoom = Math.max(1, Math.floor(FEWEST_IN_TASK / usual));
  const roomSize = inRoom * batchBytes(Object.keys(model.measurands).length, usual);
  const pending: { readonly answer: Promise<readonly Batch[]>; readonly taken: readonly SharedArrayBuffer[] }[] = [];
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
    const taken = Array.from({ length: Math.ceil(counts.length / inRoom) }, () => rooms.pop() ?? takeRoom(roomSize));
    const answer = pool.draw({ job, recipe, first, counts, rooms: taken, stop }, abort.signal);
    // Awaited in order below; a later one that fails meanwhile must not go unhandled.
    answer.catch(() => undefined);
    pending.push({ answer, taken });
  };
  try {
    if (outer?.aborted) throw cancelled();
    for (let i = 0; i < 2 * pool.workers; i++) ask();
    while (pending.length > 0) {
      // It stays among those whose rooms are given back, until its batches are added.
      const { answer, taken } = pending[0]!;
      const batches = await answer;
      if (outer?.aborted) throw cancelled();
      pending.shift();
      ask();
      // Kept trials stay where they were written, until the run is released; a task's first batch is kept longest.
      const kept = batches.length > 0 && gathered.keeps(batches[0]!.count);
      for (const batch of batches) if (gathered.next > 0) add(batch);
      (kept ? held : rooms).push(...taken);
      // Trials that are only counted from now on lie where they were written no longer, and their room serves the next tasks.
      if (!gathered.keepsTrials) rooms.push(...held.splice(0));
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
    if (!abort.signal.aborted) giveRooms(pending.flatMap(({ taken }) => taken));
    if (!enough) {
      // Nobody can ask a run that was cancelled or failed for its trials. The collector does not see how much shared
      // memory it holds, so it is given back here.
      gathered.release();
      giveRooms(held);
    }
  }
  return held;
}

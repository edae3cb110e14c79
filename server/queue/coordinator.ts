import {
  batchesIn,
  KEPT_TRIALS,
  type Accumulation,
  type Batch,
  type Condensed,
  type Prepared,
} from "../../engine/internal.ts";
import { cancelled, Fault, faultFrom } from "../errors.ts";
import type { Board } from "./board.ts";
import { encode } from "./codec.ts";
import type { Ground, Pending } from "./ground.ts";
import { nameOf, type Job } from "./messages.ts";
import { orAbort } from "./or-abort.ts";
import { readAnswer } from "./read-answer.ts";
import { batchesOfNext, countsOf } from "./sizing.ts";
import { lookAfter } from "./upkeep.ts";

/** What is gathered, and who is told. */
interface Gathering {
  readonly prepared: Prepared;
  readonly gathered: Accumulation;
  readonly add: (batch: Batch) => void;
  readonly told: () => void;
}

/** Answers that are fetched ahead. */
const AHEAD = 3;
/** Answers to a job that may be unreadable before the run ends. */
const MOST_UNREADABLE = 3;
/** Bytes of answers after which what is gathered is kept in their place, once trials are only counted. */
const ANSWERS_KEPT = 64e6;
/** Milliseconds that taking a draw away may take: an interrupt comes back within a second, whatever the queue does. */
const LEAVING = 400;
/** Milliseconds of work between two breaths, in which events come through. */
const BREATH = 50;

/**
 * Draws by jobs. Answers come in any order, twice or late; each job's are added once, in the order of the trials, so that
 * the record is that of one thread, bit for bit.
 */
export async function drawBy(ground: Ground, gathering: Gathering, outer: AbortSignal | undefined): Promise<void> {
  const { board, lane, draw, pace } = ground;
  const { prepared, gathered, add, told } = gathering;
  const pending = await orAbort(plannedBefore(ground, gathered, prepared), outer);
  const byId = new Map(pending.map((job) => [job.id, job]));
  let next = pending.length === 0 ? gathered.trials : endOf(pending.at(-1)!);
  let failure: unknown = null;
  let wake = (): void => undefined;
  let adding: Promise<unknown> = Promise.resolve();

  const fail = (cause: unknown): void => {
    failure ??= cause;
    wake();
  };
  const put = (jobs: readonly Pending[], planned: boolean): void => {
    if (jobs.length === 0) return;
    for (const job of jobs) job.asked = performance.now();
    adding = adding
      .then(async () => {
        if (!planned)
          await board.addToPlan(
            draw,
            jobs.map(({ first, counts }) => [first, counts.length]),
          );
        await lane.queue.addBulk(jobs.map((job) => bulkOf(job)));
      })
      .catch((cause: unknown) => fail(queueFault(ground, cause)));
  };
  const answered = ({ jobId }: { jobId: string }): void => {
    const job = byId.get(jobId);
    if (job === undefined) return;
    job.answered = true;
    wake();
  };
  const failed = ({ jobId, failedReason }: { jobId: string; failedReason: string }): void => {
    const job = byId.get(jobId);
    if (job === undefined || job.answered) return;
    job.failed = lost(job, failedReason);
    wake();
  };
  const interrupted = (): void => wake();
  lane.events.on("completed", answered);
  lane.events.on("failed", failed);
  outer?.addEventListener("abort", interrupted);
  const upkeep = await orAbort(
    lookAfter(ground, gathered, pending, { put: (jobs) => put(jobs, true), answered, fail, woken: () => wake() }),
    outer,
  );
  put(
    pending.filter((job) => !job.answered),
    true,
  );

  const refill = (): void => {
    const threads = upkeep.threads();
    const jobs: Pending[] = [];
    const { limit, batch, model, study } = prepared;
    while (next < limit && pending.length < Math.max(4, 2 * threads + 2)) {
      const batches = batchesOfNext({
        first: next,
        limit,
        batch,
        measurands: Object.keys(model.measurands).length,
        adaptive: study.trials === "adaptive",
        threads,
        secondsABatch: pace.secondsABatch,
      });
      const job = pendingOf(draw, next, countsOf(next, batches, batch, limit));
      pending.push(job);
      byId.set(job.id, job);
      jobs.push(job);
      next = endOf(job);
    }
    put(jobs, false);
  };

  let merged: string[] = [];
  let bytesMerged = 0;
  let breath = performance.now();
  try {
    while (gathered.next > 0) {
      if (outer?.aborted) throw cancelled();
      if (failure !== null) throw failure;
      refill();
      const head = pending[0]!;
      if (head.failed !== null) throw head.failed;
      for (const job of pending.slice(0, AHEAD)) if (job.answered) job.bytes ??= fetched(board, job, fail);
      if (!head.answered) {
        await new Promise<void>((resolve) => (wake = resolve));
        continue;
      }
      const bytes = await orAbort(head.bytes!, outer);
      const answer = bytes === null ? null : readAnswer(bytes, head, prepared);
      if (answer === null) {
        // The queue has lost it, or somebody has altered it: it is drawn again.
        if (bytes !== null && ++head.unreadable > MOST_UNREADABLE)
          throw new Fault(
            "queue-unreachable",
            `Answers that come through the queue at ${ground.shown} are none to what was asked: trials ${head.first} to ${endOf(head) - 1}, ${MOST_UNREADABLE + 1} times. Somebody else writes into it, or a worker is broken.`,
          );
        head.answered = false;
        head.bytes = null;
        if (bytes !== null) await orAbort(board.dropAnswer(draw, head.name), outer);
        put([head], true);
        continue;
      }
      if (!answer.ok) throw faultFrom(answer.report);
      for (const batch of batchesOf(answer)) if (batch.first >= gathered.trials && gathered.next > 0) add(batch);
      pending.shift();
      byId.delete(head.id);
      pace.secondsABatch = answer.seconds / head.counts.length;
      told();
      merged.push(head.name);
      bytesMerged += bytes!.length;
      if (bytesMerged > ANSWERS_KEPT && gathered.trials > KEPT_TRIALS && gathered.next > 0) {
        // Written meanwhile; until it is, the answers are there still.
        board
          .keepState(draw, encode(gathered.state), merged)
          .catch((cause: unknown) => fail(queueFault(ground, cause)));
        merged = [];
        bytesMerged = 0;
      }
      if (performance.now() - breath > BREATH) {
        await new Promise<void>((resolve) => setImmediate(resolve));
        breath = performance.now();
      }
    }
  } finally {
    upkeep.stop();
    lane.events.off("completed", answered);
    lane.events.off("failed", failed);
    outer?.removeEventListener("abort", interrupted);
    // Another coordinator may have it now.
    if (!upkeep.lost()) await leave(ground, pending, adding);
  }
}

/** Jobs that an earlier coordinator has planned, from what is gathered on. */
async function plannedBefore(
  { board, draw }: Ground,
  gathered: Accumulation,
  { batch, limit }: Prepared,
): Promise<Pending[]> {
  const plan = await board.plan(draw);
  const jobs = plan
    .map(([first, batches]) => pendingOf(draw, first, countsOf(first, batches, batch, limit)))
    .filter((job) => endOf(job) > gathered.trials);
  const fits = jobs.every((job, i) => {
    if (i > 0) return job.first === endOf(jobs[i - 1]!);
    // Batches that are only counted are added together: none of them may be gathered already.
    return job.first === gathered.trials || (job.first < gathered.trials && endOf(job) <= KEPT_TRIALS);
  });
  if (!fits) {
    await board.restart(draw);
    return [];
  }
  const there = new Set(await board.answered(draw));
  for (const job of jobs) job.answered = there.has(job.name);
  return jobs;
}

const pendingOf = (draw: string, first: number, counts: readonly number[]): Pending => {
  const name = nameOf({ first, counts });
  return {
    draw,
    first,
    counts,
    name,
    id: `${draw}-${name}`,
    answered: false,
    bytes: null,
    failed: null,
    asked: 0,
    unreadable: 0,
  };
};

function* batchesOf({ kept, condensed }: Condensed): Generator<Batch> {
  yield* kept;
  for (const batches of condensed) yield* batchesIn(batches);
}

const endOf = ({ first, counts }: Job): number => first + counts.reduce((sum, count) => sum + count, 0);

/** A job for the engine: one of the same name is there once, however often it is given. */
const bulkOf = ({ id, draw, first, counts }: Pending) => ({
  name: "draw",
  data: { draw, first, counts } satisfies Job,
  opts: {
    jobId: id,
    // Of what a worker cannot help: the queue refused its answer, it was asked to stop.
    attempts: 10,
    backoff: { type: "fixed", delay: 500 },
    removeOnComplete: true,
    removeOnFail: true,
  },
});

const fetched = (board: Board, { draw, name }: Pending, fail: (cause: unknown) => void): Promise<Buffer | null> => {
  const bytes = board.answer(draw, name);
  bytes.catch(fail);
  return bytes;
};

const lost = (job: Job, reason: string): Fault =>
  new Fault(
    "worker-lost",
    `Trials ${job.first} to ${endOf(job) - 1} were not drawn: ${
      /stalled/.test(reason)
        ? "the workers that began them ended or were cut off, one after the other. The model may end its process for one of them."
        : reason
    }`,
  );

const queueFault = ({ shown }: Ground, cause: unknown): Fault =>
  cause instanceof Fault
    ? cause
    : new Fault(
        "queue-unreachable",
        `The queue at ${shown} cannot be used: ${cause instanceof Error ? cause.message : String(cause)}`,
      );

/** Takes the draw away: workers stop, jobs that wait are removed, and what is answered late is dropped. */
async function leave(
  { board, lane, draw }: Ground,
  pending: readonly Pending[],
  adding: Promise<unknown>,
): Promise<void> {
  const work = adding
    .then(() => board.end(draw))
    .then(() => Promise.allSettled(pending.map(({ id }) => lane.queue.remove(id))));
  work.catch(() => undefined);
  await Promise.race([work, new Promise((resolve) => setTimeout(resolve, LEAVING))]);
}

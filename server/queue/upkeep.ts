import type { Accumulation } from "../../engine/internal.ts";
import { Fault } from "../errors.ts";
import { WORKER_GONE } from "./board.ts";
import type { Ground, Pending } from "./ground.ts";

/** Milliseconds between two looks at the queue. */
const LOOK_EVERY = 1000;
/** Milliseconds without an answer after which a job is looked for. */
const LOOKED_FOR_AFTER = 2500;
/** Jobs that are looked for at once. */
const LOOKED_FOR = 50;
/** Milliseconds without a word of the queue until a person is informed. */
const SILENT = 5000;

interface Calls {
  /** Gives jobs to the queue again. */
  readonly put: (jobs: readonly Pending[]) => void;
  readonly answered: (event: { jobId: string }) => void;
  readonly fail: (cause: unknown) => void;
  readonly woken: () => void;
}

export interface Upkeep {
  /** Threads that take the draw's jobs. */
  readonly threads: () => number;
  /** Whether another coordinator has taken the draw over. */
  readonly lost: () => boolean;
  readonly stop: () => void;
}

/**
 * Looks at the queue every second: says that the coordinator is there, counts the workers, finds answers whose event was
 * missed, and gives jobs again that the queue has lost.
 */
export async function lookAfter(
  ground: Ground,
  gathered: Accumulation,
  pending: readonly Pending[],
  { put, answered, fail, woken }: Calls,
): Promise<Upkeep> {
  const { board, lane, laneName, draw, owner, notice } = ground;
  let threads = 0;
  let lost = false;
  let looking = false;
  let heard = performance.now();
  let away = false;
  let said = "";
  const began = performance.now();

  const say = (words: string): void => {
    if (words !== said && words !== "") notice(words);
    said = words;
  };

  const countWorkers = async (): Promise<void> => {
    const all = (await board.workers()).filter(({ silent }) => silent < WORKER_GONE);
    const mine = all.filter(({ lanes }) => lanes.includes(laneName));
    const now = mine.reduce((sum, worker) => sum + worker.threads, 0);
    if (now !== threads) woken();
    threads = now;
    ground.threadsSeen(threads);
    if (threads > 0) return void (said = "");
    // A worker that has just seen the draw is about to open its queue.
    if (performance.now() - began < 2 * LOOK_EVERY) return;
    const refusals = Object.entries(await board.refusals(draw));
    say(
      refusals.length > 0
        ? `No worker takes this run. ${refusals.map(([name, words]) => `${name}: ${words}`).join(" ")}`
        : `No worker is there; the run waits for one. Start it on any machine that reaches the queue at ${ground.shown}: trialband worker --queue`,
    );
  };

  const look = async (): Promise<void> => {
    const held = await board.beat(draw, owner, gathered.trials);
    if (held === "lost") {
      lost = true;
      return fail(
        new Fault("changed-meanwhile", "Another process goes on with this run, which it found without an owner."),
      );
    }
    if (held === "gone") {
      // The queue has lost what it had: everything that is not added yet is drawn again.
      if ((await ground.claimAgain()) === "held") return;
      for (const job of pending) job.answered = false;
      await board.restart(draw);
      await board.addToPlan(
        draw,
        pending.map(({ first, counts }) => [first, counts.length]),
      );
      put(pending);
    }
    await countWorkers();
    for (const name of await board.answered(draw)) answered({ jobId: `${draw}-${name}` });
    const now = performance.now();
    const missing = pending.filter((job) => !job.answered && now - job.asked > LOOKED_FOR_AFTER).slice(0, LOOKED_FOR);
    const states = await Promise.all(missing.map(({ id }) => lane.queue.getJobState(id)));
    for (const job of missing) job.asked = now;
    put(missing.filter((job, i) => states[i] === "unknown" && !job.answered));
  };

  await countWorkers();
  const timer = setInterval(() => {
    if (performance.now() - heard > SILENT && !away) {
      away = true;
      notice(`The queue at ${ground.shown} does not answer; the run goes on as soon as it does.`);
    }
    if (looking) return;
    looking = true;
    look()
      .then(
        () => {
          heard = performance.now();
          if (away) notice(`The queue at ${ground.shown} answers again.`);
          away = false;
        },
        // A command that was under way when the connection broke: the next look finds what is there.
        () => undefined,
      )
      .finally(() => (looking = false));
  }, LOOK_EVERY);
  return {
    threads: () => threads,
    lost: () => lost,
    stop: () => clearInterval(timer),
  };
}

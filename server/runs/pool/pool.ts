import { availableParallelism } from "node:os";
import type { Piscina } from "piscina";
import { cancelled, faultFrom, Fault } from "../../errors.ts";
import { builtFile } from "../../package-root.ts";
import type { DrawAnswer, DrawTask } from "./messages.ts";

/** Workers to use by default: one a core, within limits. */
export const defaultWorkers = (): number => Math.min(availableParallelism(), 16);

/** Threads that a task is given to, one after the other, before it counts as what ends them. */
const ATTEMPTS = 3;
/** Megabytes of objects that a thread may hold, beside its arrays: many times what any example takes. */
const OBJECTS = 512;

/** Draws batches on worker threads. */
export interface Pool {
  readonly workers: number;
  /** @throws {Fault} what went wrong on the worker, or `cancelled` */
  draw(task: DrawTask, signal: AbortSignal): Promise<Extract<DrawAnswer, { ok: true }>["batches"]>;
  close(): Promise<void>;
}

/** Starts a pool; its threads stay warm until it is closed. */
export async function openPool(workers: number): Promise<Pool> {
  const filename = builtFile("worker.cjs");
  // Loaded only if workers are needed: a short run does without.
  const { Piscina: PiscinaClass } = await import("piscina");
  const pool: Piscina = new PiscinaClass({
    filename,
    minThreads: workers,
    maxThreads: workers,
    idleTimeout: Infinity,
    atomics: "disabled",
    // The next task lies ready while one is worked on: no thread waits for this one to answer.
    concurrentTasksPerWorker: 2,
    // What a thread makes is short-lived: a small nursery is swept as well as a large one, and three threads have one each.
    resourceLimits: { maxYoungGenerationSizeMb: 8, maxOldGenerationSizeMb: OBJECTS },
  });
  return {
    workers,
    async draw(task, signal) {
      for (let attempt = 1; ; attempt++) {
        try {
          const answer = (await pool.run(task, { signal })) as DrawAnswer;
          if (answer.ok) return answer.batches;
          throw faultFrom(answer.report);
        } catch (error) {
          if (error instanceof Fault) throw error;
          if (signal.aborted) throw cancelled();
          // Another thread has taken the place of the one that ended: it draws the same trials, bit for bit.
          if (attempt < ATTEMPTS) continue;
          const message = error instanceof Error ? error.message : String(error);
          throw new Fault(
            "worker-lost",
            `${ATTEMPTS} worker threads ended, one after the other, before these trials were drawn: ${message}`,
          );
        }
      }
    },
    close() {
      // A thread whose task was given up may still be ending; once the pool is closed, the library would start others in its
      // place, which nobody would end.
      (pool.options as { minThreads: number }).minThreads = 0;
      return pool.destroy();
    },
  };
}

import type { Piscina } from "piscina";
import { cancelled, faultFrom, Fault, type FaultReport } from "../../errors.ts";
import { nobodyWaits } from "../../nobody-waits.ts";
import { builtFile } from "../../package-root.ts";

/** Threads that a task is given to, one after the other, before it counts as what ends them. */
const ATTEMPTS = 3;
/** Megabytes of objects that a thread may hold, beside its arrays: many times what any example takes. */
const OBJECTS = 512;

/** What a thread answers to every task. */
export type ThreadAnswer = { readonly ok: true } | { readonly ok: false; readonly report: FaultReport };

/** Threads of one kind, which stay warm until they are closed. */
export interface Threads<Task, Answer extends ThreadAnswer> {
  /**
   * @throws {Fault} what went wrong on the thread; `cancelled`; `worker-lost` if it ended, and two others after it
   */
  run(task: Task, signal: AbortSignal): Promise<Extract<Answer, { ok: true }>>;
  close(): Promise<void>;
}

/** @param file of `dist/`, whose default export does a task */
export async function openThreads<Task, Answer extends ThreadAnswer>(
  file: string,
  count: number,
): Promise<Threads<Task, Answer>> {
  const filename = builtFile(file);
  // Loaded only if threads are needed: a short run does without.
  const { Piscina: PiscinaClass } = await import("piscina");
  const pool: Piscina = new PiscinaClass({
    filename,
    minThreads: count,
    maxThreads: count,
    idleTimeout: Infinity,
    atomics: "disabled",
    // The next task lies ready while one is worked on: no thread waits for this one to answer.
    concurrentTasksPerWorker: 2,
    // What a thread makes is short-lived: a small nursery is swept as well as a large one, and three threads have one each.
    resourceLimits: { maxYoungGenerationSizeMb: 8, maxOldGenerationSizeMb: OBJECTS },
  });
  pool.on("error", nobodyWaits);
  return {
    async run(task, signal) {
      for (let attempt = 1; ; attempt++) {
        try {
          const answer = (await pool.run(task, { signal })) as Answer;
          if (answer.ok) return answer as Extract<Answer, { ok: true }>;
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

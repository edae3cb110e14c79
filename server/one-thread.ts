import type { Piscina } from "piscina";
import { Fault, faultFrom, type FaultReport } from "./errors.ts";
import { nobodyWaits } from "./nobody-waits.ts";
import { builtFile } from "./package-root.ts";

/** Work that goes to a thread of its own, one task after the other, so that the server answers others meanwhile. */
export interface OneThread<Task, Answer> {
  /**
   * @param signal ends a task that nobody waits for any more
   * @throws {Fault} what went wrong there; `busy`: too many wait; `late`: it took too long; `cancelled`; `worker-lost`
   */
  run(task: Task, signal: AbortSignal): Promise<Answer>;
  close(): Promise<void>;
}

/** The signal of a task that nobody ends. */
export const NEVER = new AbortController().signal;

/** What a thread answers with. */
export type ThreadAnswer<Answer> =
  | { readonly ok: true; readonly answer: Answer }
  | { readonly ok: false; readonly report: FaultReport };

export interface OneThreadOptions {
  /** Built file that the thread loads: `check.cjs`. */
  readonly file: string;
  /** What the tasks are, in words: `checks`. */
  readonly what: string;
  /** Seconds that a task may take, and the fault of one that took longer; without it, as long as its signal lets it. */
  readonly limit?: { readonly seconds: number; readonly late: () => Fault };
  /** Tasks that may wait for the one that goes on. */
  readonly waiting?: number;
}

/** Tasks of other people that may wait for the one that goes on. */
const MOST_WAITING = 16;
/** Seconds after which a task that found no place is worth another try. */
const RETRY_AFTER = 5;
/** Milliseconds that the thread stays after a task: a person who types has the next one soon. */
const STAYS = 60_000;
/** Megabytes of objects that the thread may hold. */
const OBJECTS = 512;

/** The thread starts with the first task. */
export function openOneThread<Task, Answer>({
  file,
  what,
  limit: stated,
  waiting: most = MOST_WAITING,
}: OneThreadOptions): OneThread<Task, Answer> {
  let opening: Promise<Piscina> | undefined;
  let waiting = 0;
  let turn: Promise<unknown> = Promise.resolve();
  const cancelled = (): Fault => new Fault("cancelled", `One of the ${what} was cancelled.`);
  const doNow = async (task: Task, signal: AbortSignal): Promise<Answer> => {
    const pool = await (opening ??= openThread(file));
    const limit = stated === undefined ? null : AbortSignal.timeout(1000 * stated.seconds);
    try {
      const ends = limit === null ? signal : AbortSignal.any([signal, limit]);
      const found = (await pool.run(task, { signal: ends })) as ThreadAnswer<Answer>;
      if (found.ok) return found.answer;
      throw faultFrom(found.report);
    } catch (error) {
      if (error instanceof Fault) throw error;
      if (signal.aborted) throw cancelled();
      if (limit?.aborted) throw stated!.late();
      const message = error instanceof Error ? error.message : String(error);
      throw new Fault("worker-lost", `The thread of ${what} ended: ${message}`);
    }
  };
  return {
    async run(task, signal) {
      if (waiting > most)
        throw new Fault("busy", `${most} ${what} wait already; try again in a moment.`, [], RETRY_AFTER);
      waiting += 1;
      const found = turn.then(() => {
        if (signal.aborted) throw cancelled();
        return doNow(task, signal);
      });
      turn = found.catch(() => undefined).finally(() => (waiting -= 1));
      return found;
    },
    async close() {
      await (await opening)?.destroy();
    },
  };
}

async function openThread(file: string): Promise<Piscina> {
  const filename = builtFile(file);
  const { Piscina: PiscinaClass } = await import("piscina");
  const pool = new PiscinaClass({
    filename,
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: STAYS,
    atomics: "disabled",
    resourceLimits: { maxOldGenerationSizeMb: OBJECTS },
  });
  pool.on("error", nobodyWaits);
  return pool;
}

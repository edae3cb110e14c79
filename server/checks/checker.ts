import type { Piscina } from "piscina";
import type { Problem } from "../../engine/index.ts";
import { Fault, faultFrom, refused } from "../errors.ts";
import { builtFile } from "../package-root.ts";
import type { Explored } from "./exploration-of.ts";
import type { CheckAnswer, CheckTask } from "./messages.ts";

/** Checks studies in a thread of their own: one of many inputs takes seconds, in which the server goes on to answer. */
export interface Checker {
  /**
   * Everything that can be found wrong with a study without drawing a trial.
   *
   * @param signal ends a check that nobody waits for any more
   * @throws {Fault} `bad-input`: a study that takes too long to check; `busy`: too many checks wait; what is wrong, if it
   *   is the fault of no field
   */
  check(document: unknown, signal: AbortSignal): Promise<readonly Problem[]>;
  /**
   * A quick look at a study: few evaluations at low-discrepancy points, or what is wrong with it.
   *
   * @throws {Fault} as `check`; a model that fails
   */
  explore(document: unknown, points: number, signal: AbortSignal): Promise<Explored>;
  close(): Promise<void>;
}

/** Seconds that a check may take: many times what a study of a hundred inputs does. */
const MOST_SECONDS = 30;
/** Checks that may wait for the one that goes on. */
const MOST_WAITING = 16;
/** Seconds after which a check that found no place is worth another try. */
const RETRY_AFTER = 5;
/** Milliseconds that the thread stays after a check: a person who types has the next one checked soon. */
const STAYS = 60_000;
/** Megabytes of objects that the thread may hold. */
const OBJECTS = 512;

/** The thread starts with the first check. @param seconds that a check may take */
export function openChecker(seconds = MOST_SECONDS): Checker {
  let opening: Promise<Piscina> | undefined;
  let waiting = 0;
  let turn: Promise<unknown> = Promise.resolve();
  const doNow = async (task: CheckTask, signal: AbortSignal): Promise<Explored> => {
    const pool = await (opening ??= openThread());
    const limit = AbortSignal.timeout(1000 * seconds);
    try {
      const answer = (await pool.run(task, {
        signal: AbortSignal.any([signal, limit]),
      })) as CheckAnswer;
      if (answer.ok) return { problems: answer.problems, explored: answer.explored };
      throw faultFrom(answer.report);
    } catch (error) {
      if (error instanceof Fault) throw error;
      if (signal.aborted) throw new Fault("cancelled", "The check was cancelled.");
      if (limit.aborted)
        throw refused(
          "study",
          `a study whose check takes more than ${seconds} s`,
          `a study that is checked within ${seconds} s: one of fewer inputs or with fewer points of a sweep. trialband run takes larger ones`,
        );
      throw new Fault(
        "worker-lost",
        `The thread of checks ended: ${error instanceof Error ? error.message : String(error)}`,
      );
    }
  };
  const inTurn = async (task: CheckTask, signal: AbortSignal): Promise<Explored> => {
    if (waiting > MOST_WAITING)
      throw new Fault("busy", `${MOST_WAITING} checks wait already; try again in a moment.`, [], RETRY_AFTER);
    waiting += 1;
    const found = turn.then(() => {
      if (signal.aborted) throw new Fault("cancelled", "The check was cancelled.");
      return doNow(task, signal);
    });
    turn = found.catch(() => undefined).finally(() => (waiting -= 1));
    return found;
  };
  return {
    check: async (study, signal) => (await inTurn(JSON.stringify({ study }), signal)).problems,
    explore: (study, points, signal) => inTurn(JSON.stringify({ study, points }), signal),
    async close() {
      await (await opening)?.destroy();
    },
  };
}

async function openThread(): Promise<Piscina> {
  const filename = builtFile("check.cjs");
  const { Piscina: PiscinaClass } = await import("piscina");
  return new PiscinaClass({
    filename,
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: STAYS,
    atomics: "disabled",
    resourceLimits: { maxOldGenerationSizeMb: OBJECTS },
  });
}

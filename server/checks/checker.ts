import type { Problem } from "../../engine/index.ts";
import { refused } from "../errors.ts";
import type { Explored } from "./exploration-of.ts";
import type { CheckTask } from "./messages.ts";
import { openOneThread } from "../one-thread.ts";

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

/** The thread starts with the first check. @param seconds that a check may take */
export function openChecker(seconds = MOST_SECONDS): Checker {
  const thread = openOneThread<CheckTask, Explored>({
    file: "check.cjs",
    what: "checks",
    limit: {
      seconds,
      late: () =>
        refused(
          "study",
          `a study whose check takes more than ${seconds} s`,
          `a study that is checked within ${seconds} s: one of fewer inputs or with fewer points of a sweep. trialband run takes larger ones`,
        ),
    },
  });
  return {
    check: async (study, signal) => (await thread.run(JSON.stringify({ study }), signal)).problems,
    explore: (study, points, signal) => thread.run(JSON.stringify({ study, points }), signal),
    close: () => thread.close(),
  };
}

import type { State } from "./state.ts";
import { whole } from "../present/numbers.ts";
import { isAdaptive } from "./progress.ts";

/** What a change of state is worth saying aloud, or `null`. */
export function announcement(now: State, before: State): string | null {
  if (now.trouble !== null && now.trouble !== before.trouble) return `${now.trouble.title}.`;
  if (now.cut && !before.cut) return "The connection to the server is lost; trying again.";
  const { run } = now;
  if (run === null) return null;
  const same = before.run?.id === run.id;
  if (same && before.cut && !now.cut && before.run.state === run.state) return "Connected again.";
  if (!same || before.run.state !== run.state) return stateWords(now);
  if (run.state === "running" && !isAdaptive(run.record)) {
    const quarter = Math.floor((4 * run.trials) / run.limit);
    if (quarter > Math.floor((4 * before.run.trials) / run.limit) && quarter < 4)
      return `${25 * quarter} % of the trials.`;
  }
  return null;
}

function stateWords({ run, measurand }: State): string | null {
  if (run === null) return null;
  switch (run.state) {
    case "waiting":
      return "The run waits for its turn.";
    case "running":
      return "The run has started.";
    case "cancelled":
      return `The run was cancelled after ${whole(run.trials)} trials.`;
    case "failed":
      return `The run failed. ${run.error?.message ?? ""}`;
    case "finished": {
      const measurands = run.record?.measurands ?? {};
      const shown = measurands[measurand ?? ""] ?? Object.values(measurands)[0];
      return shown === undefined ? "The run has finished." : `Finished. ${shown.validation.sentence}`;
    }
  }
}

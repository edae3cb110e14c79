import type { ShownRun } from "./shown.ts";
import type { State } from "./state.ts";
import { whole } from "../present/numbers.ts";
import { isAdaptive } from "./progress.ts";

/** What a change of state is worth saying aloud, or `null`. Troubles and the run can both have news in one frame. */
export function announcement(now: State, before: State): string | null {
  const trouble = now.trouble !== null && now.trouble !== before.trouble ? `${now.trouble.title}.` : null;
  const news = [trouble, runNews(now, before)].filter((words) => words !== null);
  return news.length === 0 ? null : news.join(" ");
}

function runNews(now: State, before: State): string | null {
  if (now.shown.kind !== "run") return null;
  const { run, cut } = now.shown;
  const earlier = before.shown.kind === "run" && before.shown.run.id === run.id ? before.shown : null;
  if (cut && earlier?.cut !== true) return "The connection to the server is lost; trying again.";
  if (earlier?.cut === true && !cut && earlier.run.state === run.state) return "Connected again.";
  if (earlier?.run.state !== run.state) return stateWords(now.shown);
  if (run.state === "running" && !isAdaptive(run.record)) {
    const quarter = Math.floor((4 * run.trials) / run.limit);
    if (quarter > Math.floor((4 * earlier.run.trials) / run.limit) && quarter < 4)
      return `${25 * quarter} % of the trials.`;
  }
  return null;
}

function stateWords({ run, measurand }: ShownRun): string {
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

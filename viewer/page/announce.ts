import { shownRecord, words as pageWords } from "./language.ts";
import { fillText } from "../present/fill.ts";
import { counted } from "./counted.ts";
import type { ShownRun } from "./shown.ts";
import type { State } from "./state.ts";
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
  if (cut && earlier?.cut !== true) return pageWords.frame.lost;
  if (earlier?.cut === true && !cut && earlier.run.state === run.state) return pageWords.frame.connected;
  if (earlier?.run.state !== run.state) return stateWords(now.shown);
  if (run.state === "running" && !isAdaptive(run.record)) {
    const quarter = Math.floor((4 * run.trials) / run.limit);
    if (quarter > Math.floor((4 * earlier.run.trials) / run.limit) && quarter < 4)
      return fillText(pageWords.frame.quarter, { share: String(25 * quarter) });
  }
  return null;
}

function stateWords({ run, measurand }: ShownRun): string {
  switch (run.state) {
    case "waiting":
      return pageWords.frame.waits;
    case "running":
      return pageWords.frame.started;
    case "cancelled":
      return counted(pageWords.frame.cancelled, run.trials);
    case "failed":
      return fillText(pageWords.frame.failed, { why: run.error?.message ?? "" });
    case "finished": {
      const measurands = run.record === null ? {} : shownRecord(run.record).measurands;
      const shown = measurands[measurand ?? ""] ?? Object.values(measurands)[0];
      return shown === undefined
        ? pageWords.frame.finished
        : fillText(pageWords.frame.finishedWith, { sentence: shown.validation.sentence });
    }
  }
}

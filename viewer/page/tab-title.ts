import type { RunState } from "../api/runs.ts";
import { words } from "./language.ts";
import { shareDone } from "./progress.ts";
import { shownRun } from "./shown.ts";
import type { State } from "./state.ts";

type Seen = Pick<State, "shown">;

/** How the run on the sheet has just ended while the page was out of sight; `null` if it has not. */
export function endOf(now: Seen, before: Seen): RunState | null {
  const [run, earlier] = [shownRun(now.shown), shownRun(before.shown)];
  const ended = run !== null && run.id === earlier?.id && goesOn(earlier.state) && !goesOn(run.state);
  return ended && document.hidden ? run.state : null;
}

const goesOn = (state: RunState): boolean => state === "waiting" || state === "running";

/** What a tab says before the title of a run: how far it has come, or how it ended unseen. */
export function tabNews({ shown }: Seen, ended: RunState | null): readonly string[] {
  const run = shownRun(shown);
  if (run === null) return [];
  if (ended !== null) return [words.library.states[ended]];
  if (!goesOn(run.state)) return [];
  const share = shareDone(run);
  return [share === null ? words.library.states[run.state] : `${Math.floor(100 * share)} %`];
}

import { words } from "../language.ts";
import { writeAddress } from "../address.ts";
import { cancelRun, readRunStudy, startRun } from "../api.ts";
import type { RunEvent } from "../../api/runs.ts";
import type { Run } from "../run.ts";
import { follow } from "../follow.ts";
import { shownRun, shownStudy, type ShownRun } from "../shown.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with runs. */
export interface RunActions {
  /** Runs the study on the sheet. */
  readonly runChosen: () => Promise<void>;
  /** Runs a study document that a part of the page made. */
  readonly runStudy: (study: unknown) => Promise<void>;
  /** Runs the study of the run on the sheet once more. */
  readonly runAgain: () => Promise<void>;
  readonly cancel: () => Promise<void>;
}

/** Puts a run on the sheet, and keeps it up to date while it goes on. */
export type ShowRun = (run: Run, measurand: string | null) => void;

const goesOn = ({ state }: Run): boolean => state === "waiting" || state === "running";

export function createRunActions(
  { get, set, show, whenLeft, trouble }: ActionContext,
  refreshLists: () => Promise<void>,
): RunActions & { readonly showRun: ShowRun } {
  const changeShown = (change: Partial<ShownRun>): void => {
    const { shown } = get();
    if (shown.kind === "run") set({ shown: { ...shown, ...change } });
  };
  const change = (part: Partial<Run>): void => {
    const run = shownRun(get().shown);
    if (run !== null) changeShown({ run: { ...run, ...part } });
  };

  const take = (event: RunEvent): void => {
    switch (event.type) {
      case "progress":
        // The server sends every new reader how a run stands, one that still waits too.
        return change({
          ...(event.trials === 0 ? {} : { state: "running" }),
          trials: event.trials,
          limit: event.limit,
        });
      case "snapshot":
        return change({ state: "running", record: event.record, trials: event.record.trials.count });
      case "finished":
        change({
          state: "finished",
          record: event.record,
          trials: event.record.trials.count,
          notKept: event.notKept,
        });
        break;
      case "failed":
        change({ state: "failed", error: event.error, notKept: event.notKept });
        break;
      case "cancelled":
        change({ state: "cancelled", trials: event.trials, notKept: event.notKept });
        break;
    }
    changeShown({ cut: false });
    void refreshLists();
  };

  const showRun: ShowRun = (run, measurand) => {
    show({ kind: "run", run, measurand, cut: false });
    if (!goesOn(run)) return;
    const stop = follow(run.id, {
      event: take,
      caughtUp: (now) => {
        // A restarted server may not have a snapshot yet: the last one seen stays.
        const record = now.record ?? shownRun(get().shown)?.record ?? null;
        changeShown({ run: { ...now, record }, cut: false });
        // What was said while the server was away is over.
        if (!goesOn(now) || get().trouble?.offline === true) void refreshLists();
      },
      cut: (cut) => changeShown({ cut }),
      lost: (error) => {
        change({ state: "failed", error: error.fault });
        changeShown({ cut: false });
      },
    });
    whenLeft(stop);
  };

  const start = async (study: unknown, own: string | null = null): Promise<void> => {
    if (get().busy) return;
    set({ busy: true, trouble: null });
    try {
      const { id } = await startRun(study, own ?? undefined);
      // Busy until the run is on the sheet: a second press before that would run the study twice.
      location.hash = writeAddress({ kind: "run", id, measurand: null });
      void refreshLists();
    } catch (error) {
      trouble(words.actions.notRun, error);
    }
  };

  return {
    showRun,
    runStudy: (study) => start(study),
    runChosen: async () => {
      const study = shownStudy(get().shown);
      if (study !== null) await start(study.id ?? study.document);
    },
    runAgain: async () => {
      const run = shownRun(get().shown);
      if (run === null || goesOn(run)) return;
      try {
        await start(run.record?.study ?? (await readRunStudy(run.id)), run.own);
      } catch (error) {
        trouble(words.actions.notRun, error);
      }
    },
    cancel: async () => {
      const run = shownRun(get().shown);
      if (run === null || !goesOn(run)) return;
      try {
        await cancelRun(run.id);
      } catch (error) {
        trouble(words.actions.notCancelled, error);
      }
    },
  };
}

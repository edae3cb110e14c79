import { cancelRun, listRuns, listStudies, readRun, readStudy, RequestError, startRun, type Run, type RunEvent } from "./api.ts";
import { readAddress, writeAddress } from "./address.ts";
import { follow } from "./follow.ts";
import { openFile } from "./open-file.ts";
import type { Store } from "./state.ts";

/** What a reader can do. */
export interface Actions {
  /** Shows what the address names. */
  readonly goToAddress: () => Promise<void>;
  readonly refreshLists: () => Promise<void>;
  readonly runChosen: () => Promise<void>;
  /** Runs a study document that a part of the page made. */
  readonly runStudy: (study: unknown) => Promise<void>;
  /** Runs the study of the run on the sheet once more. */
  readonly runAgain: () => Promise<void>;
  readonly cancel: () => Promise<void>;
  readonly open: (file: File) => Promise<void>;
  readonly dismiss: () => void;
}

const goesOn = ({ state }: Run): boolean => state === "waiting" || state === "running";

/** Stands where no run is followed. */
const NOBODY = (): void => {};

export function createActions(store: Store): Actions {
  let stopFollowing = NOBODY;
  /** Counts the views asked for: an answer to an older one comes too late to be shown. */
  let asked = 0;

  const trouble = (title: string, error: unknown): void => {
    if (!(error instanceof RequestError)) throw error;
    store.set({ busy: false, trouble: { title, message: error.fault.message, problems: error.fault.problems } });
  };

  const change = (run: Partial<Run>): void => {
    const now = store.get().run;
    if (now !== null) store.set({ run: { ...now, ...run } });
  };

  const take = (event: RunEvent): void => {
    switch (event.type) {
      case "progress":
        return change({ state: "running", trials: event.trials, limit: event.limit });
      case "snapshot":
        return change({ state: "running", record: event.record, trials: event.record.trials.count });
      case "finished":
        change({ state: "finished", record: event.record, trials: event.record.trials.count });
        break;
      case "failed":
        change({ state: "failed", error: event.error });
        break;
      case "cancelled":
        change({ state: "cancelled", trials: event.trials });
        break;
    }
    store.set({ cut: false });
    void refreshLists();
  };

  const showRun = (run: Run, measurand: string | null): void => {
    stopFollowing();
    store.set({ run, chosen: null, measurand, cut: false, busy: false, trouble: null });
    if (!goesOn(run)) return;
    stopFollowing = follow(run.id, {
      event: take,
      caughtUp: (now) => {
        // A restarted server may not have a snapshot yet: the last one seen stays.
        const record = now.record ?? store.get().run?.record ?? null;
        store.set({ run: { ...now, record }, cut: false });
        if (!goesOn(now)) void refreshLists();
      },
      cut: (cut) => store.set({ cut }),
      lost: (error) => {
        change({ state: "failed", error: error.fault });
        store.set({ cut: false });
      },
    });
  };

  const goToAddress = async (): Promise<void> => {
    const address = readAddress(location.hash);
    const mine = (asked += 1);
    const current = (): boolean => mine === asked;
    if (address.kind === "nothing") {
      stopFollowing();
      store.set({ chosen: null, run: null, measurand: null, cut: false, busy: false, trouble: null });
      return;
    }
    if (address.kind === "run" && store.get().run?.id === address.id) {
      store.set({ measurand: address.measurand });
      return;
    }
    store.set({ busy: true });
    try {
      if (address.kind === "run") {
        const run = await readRun(address.id);
        if (current()) showRun(run, address.measurand);
      } else {
        const document = await readStudy(address.id);
        if (!current()) return;
        stopFollowing();
        store.set({ chosen: { id: address.id, file: null, document }, run: null, measurand: null, cut: false, busy: false, trouble: null });
      }
    } catch (error) {
      if (current()) trouble(`The ${address.kind} “${address.id}” cannot be shown`, error);
    }
  };

  const refreshLists = async (): Promise<void> => {
    try {
      const [studies, runs] = await Promise.all([listStudies(), listRuns()]);
      store.set({ studies, runs });
    } catch (error) {
      trouble("The lists of studies and runs cannot be read", error);
    }
  };

  const start = async (study: unknown): Promise<void> => {
    if (store.get().busy) return;
    store.set({ busy: true, trouble: null });
    try {
      const { id } = await startRun(study);
      const { origins } = store.get();
      store.set({ busy: false, origins: typeof study === "string" ? { ...origins, [id]: study } : origins });
      location.hash = writeAddress({ kind: "run", id, measurand: null });
      void refreshLists();
    } catch (error) {
      trouble("The study was not run", error);
    }
  };

  return {
    goToAddress,
    refreshLists,
    runChosen: async () => {
      const { chosen } = store.get();
      if (chosen !== null) await start(chosen.id ?? chosen.document);
    },
    runStudy: start,
    runAgain: async () => {
      const { run } = store.get();
      if (run?.record != null && !goesOn(run)) await start(run.record.study);
    },
    cancel: async () => {
      const { run } = store.get();
      if (run === null || !goesOn(run)) return;
      try {
        await cancelRun(run.id);
      } catch (error) {
        trouble("The run was not cancelled", error);
      }
    },
    open: async (file) => {
      const { document, problems } = await openFile(file);
      if (document === null) {
        store.set({ trouble: { title: `“${file.name}” was not opened`, message: "What was on the page is still there.", problems } });
        return;
      }
      asked += 1;
      stopFollowing();
      // A file has no address that would bring it back.
      history.pushState(null, "", location.pathname + location.search);
      store.set({ chosen: { id: null, file: file.name, document }, run: null, measurand: null, cut: false, busy: false, trouble: null });
    },
    dismiss: () => store.set({ trouble: null }),
  };
}

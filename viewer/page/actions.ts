import {
  annotateRun,
  cancelRun,
  listFittingStudies,
  listRuns,
  listStudies,
  listSurveys,
  readRecord,
  readRun,
  readRunStudy,
  readStudy,
  readSurvey,
  readTable,
  removeRun,
  RequestError,
  sendSurvey,
  startRun,
  studyFromSurvey,
  type Run,
  type RunEvent,
} from "./api.ts";
import { readAddress, writeAddress } from "./address.ts";
import { follow } from "./follow.ts";
import type { LibraryView } from "./library/listing.ts";
import { BLANK, draftOf, type Draft, type StudyDocument } from "./new-study/draft.ts";
import { beginDraft, keptDraft } from "./new-study/keeping.ts";
import { openFiles } from "./open-file.ts";
import type { State, Store } from "./state.ts";
import type { StudyChoice } from "./survey/into-study.ts";

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
  /** Opens what was chosen or dropped: one file, or a survey's description with its log. */
  readonly open: (files: readonly File[]) => Promise<void>;
  /** Makes the study of a survey, and runs it or shows it. */
  readonly studyFrom: (survey: string, choice: StudyChoice, run: boolean) => Promise<void>;
  /** Reads the budget table on the sheet once more, with some columns taken for what the reader says. */
  readonly readTableAs: (columns: Readonly<Record<string, string>>) => Promise<void>;
  /** Changes how the list of runs is looked at. */
  readonly look: (change: Partial<LibraryView>) => void;
  /** Deletes runs that have ended, for good. */
  readonly remove: (ids: readonly string[]) => Promise<void>;
  readonly annotate: (id: string, note: string) => Promise<void>;
  /** Opens the form on a study at hand, or on another draft; the one that was being written is put aside. */
  readonly write: (study: StudyDocument | Draft) => void;
  readonly dismiss: () => void;
}

const goesOn = ({ state }: Run): boolean => state === "waiting" || state === "running";

/** What is on the sheet when nothing is: set before anything is put there. */
const CLEAR: Partial<State> = {
  chosen: null,
  run: null,
  writing: null,
  compared: null,
  surveys: null,
  surveyed: null,
  measurand: null,
  cut: false,
  busy: false,
  trouble: null,
};

const isDraft = (study: StudyDocument | Draft): study is Draft => "custom" in study && "rest" in study;

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
        // The server tells every new reader how a run stands, one that still waits too.
        return change({
          ...(event.trials === 0 ? {} : { state: "running" }),
          trials: event.trials,
          limit: event.limit,
        });
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
    store.set({ ...CLEAR, run, measurand });
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
      store.set(CLEAR);
      return;
    }
    if (address.kind === "new") {
      stopFollowing();
      store.set({ ...CLEAR, writing: keptDraft() ?? BLANK });
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
      } else if (address.kind === "comparison") {
        const compared = await Promise.all([readRun(address.id), readRun(address.with)]);
        if (!current()) return;
        stopFollowing();
        store.set({ ...CLEAR, compared });
      } else if (address.kind === "surveys") {
        const surveys = await listSurveys();
        if (!current()) return;
        stopFollowing();
        store.set({ ...CLEAR, surveys });
      } else if (address.kind === "survey") {
        const [survey, studies] = await Promise.all([readSurvey(address.id), listFittingStudies(address.id)]);
        if (!current()) return;
        stopFollowing();
        store.set({ ...CLEAR, surveyed: { survey, studies } });
      } else {
        const document = await readStudy(address.id);
        if (!current()) return;
        stopFollowing();
        store.set({ ...CLEAR, chosen: { id: address.id, file: null, document, table: null } });
      }
    } catch (error) {
      if (current())
        trouble(
          address.kind === "surveys"
            ? "The surveys cannot be listed"
            : `The ${address.kind}${address.kind === "comparison" ? "" : ` “${address.id}”`} cannot be shown`,
          error,
        );
    }
  };

  const refreshLists = async (): Promise<void> => {
    try {
      const [studies, runs] = await Promise.all([listStudies(), listRuns()]);
      const { library } = store.get();
      const known = new Set(runs.map(({ id }) => id));
      store.set({ studies, runs, library: { ...library, picked: library.picked.filter((id) => known.has(id)) } });
    } catch (error) {
      trouble("The lists of studies and runs cannot be read", error);
    }
  };

  const start = async (study: unknown): Promise<void> => {
    if (store.get().busy) return;
    store.set({ busy: true, trouble: null });
    try {
      const { id } = await startRun(study);
      store.set({ busy: false });
      location.hash = writeAddress({ kind: "run", id, measurand: null });
      void refreshLists();
    } catch (error) {
      trouble("The study was not run", error);
    }
  };

  /** Puts on the sheet what has no address that would bring it back. */
  const show = (shown: Partial<State>): void => {
    asked += 1;
    stopFollowing();
    history.pushState(null, "", location.pathname + location.search);
    store.set({ ...CLEAR, ...shown });
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
      if (run === null || goesOn(run)) return;
      try {
        await start(run.record?.study ?? (await readRunStudy(run.id)));
      } catch (error) {
        trouble("The study was not run", error);
      }
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
    open: async (files) => {
      const file = files[0];
      if (file === undefined) return;
      const opened = await openFiles(files);
      const title =
        files.length === 1 ? `“${file.name}” was not opened` : `These ${files.length} files were not opened`;
      if (opened.kind === "refused") {
        store.set({ trouble: { title, message: "What was on the page is still there.", problems: opened.problems } });
        return;
      }
      try {
        if (opened.kind === "study")
          show({ chosen: { id: null, file: file.name, document: opened.document, table: null } });
        else if (opened.kind === "survey") {
          store.set({ busy: true, trouble: null });
          const { id } = await sendSurvey(opened.files);
          store.set({ busy: false });
          const address = writeAddress({ kind: "survey", id });
          // The same files once more: the address stays, and what they say is shown anew.
          if (location.hash === address) await goToAddress();
          else location.hash = address;
        } else if (opened.kind === "record") {
          const { record, seal } = await readRecord(opened.document);
          const { count } = record.trials;
          // No run of the server's has such an id: they are made of letters, digits and hyphens.
          show({
            run: {
              id: `file:${file.name}`,
              title: record.study.title,
              state: "finished",
              trials: count,
              limit: count,
              record,
              error: null,
              file: { name: file.name, seal },
            },
          });
        } else {
          const reading = await readTable(file, {}, "");
          show({
            chosen: { id: null, file: file.name, document: reading.study, table: { file, reading, columns: {} } },
          });
        }
      } catch (error) {
        trouble(title, error);
      }
    },
    studyFrom: async (survey, { study, distributions }, run) => {
      if (store.get().busy) return;
      store.set({ busy: true, trouble: null });
      try {
        const made = await studyFromSurvey(survey, study, distributions);
        store.set({ busy: false });
        if (run) await start(made.study);
        else show({ chosen: { id: null, file: null, document: made.study, table: null } });
      } catch (error) {
        trouble("The study was not made", error);
      }
    },
    readTableAs: async (columns) => {
      const { chosen } = store.get();
      if (chosen?.table == null) return;
      const { file } = chosen.table;
      try {
        const reading = await readTable(file, columns, "");
        store.set({ chosen: { ...chosen, document: reading.study, table: { file, reading, columns } }, trouble: null });
      } catch (error) {
        trouble(`“${file.name}” cannot be read that way`, error);
        // The columns go back to what they were taken for.
        store.set({ chosen: { ...chosen } });
      }
    },
    look: (view) => store.set({ library: { ...store.get().library, ...view } }),
    remove: async (ids) => {
      store.set({ busy: true, trouble: null });
      try {
        // One after the other: what could not be deleted is told, and the rest stays.
        for (const id of ids) await removeRun(id);
        store.set({ busy: false, library: { ...store.get().library, picked: [], deleting: false } });
      } catch (error) {
        trouble("Not every run was deleted", error);
      }
      await refreshLists();
    },
    annotate: async (id, note) => {
      try {
        await annotateRun(id, note);
        await refreshLists();
      } catch (error) {
        trouble("The note was not kept", error);
      }
    },
    write: (study) => {
      const draft = isDraft(study) ? study : draftOf(study);
      beginDraft(draft);
      if (location.hash === "#new") store.set({ ...CLEAR, writing: draft });
      else location.hash = "#new";
    },
    dismiss: () => store.set({ trouble: null }),
  };
}

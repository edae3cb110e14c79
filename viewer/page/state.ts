import type { Run, RunSummary, StudySummary, TableReading } from "./api.ts";
import { LIBRARY, type LibraryView } from "./library/listing.ts";
import type { Draft } from "./new-study/draft.ts";
import type { Reading } from "./reading.ts";
import type { ShownSurvey, SurveySummary } from "./survey/evaluated.ts";
import type { Problem } from "../../engine/index.ts";

/** A study before it is run: one of the server's, or a file the reader opened. */
export interface ChosenStudy {
  /** `null` for a file. */
  readonly id: string | null;
  /** Name of the file, or `null`. */
  readonly file: string | null;
  readonly document: Readonly<Record<string, unknown>>;
  /** How a budget table was understood, where the study was made from one. */
  readonly table: ReadTable | null;
}

/** A budget table with what the reader said of its columns. */
export interface ReadTable {
  readonly file: File;
  readonly reading: TableReading;
  /** Fields given by the reader, by column. */
  readonly columns: Readonly<Record<string, string>>;
}

/** What stands in the way, in words; the rest of the page stays as it was. */
export interface Trouble {
  readonly title: string;
  readonly message: string;
  readonly problems: readonly Problem[];
}

/** Everything the page shows. */
export interface State {
  /** `null` until the server has answered. */
  readonly studies: readonly StudySummary[] | null;
  readonly runs: readonly RunSummary[] | null;
  readonly chosen: ChosenStudy | null;
  readonly run: Run | null;
  /** The draft the form was opened with; the form itself keeps what is typed since. */
  readonly writing: Draft | null;
  /** Two runs side by side. */
  readonly compared: readonly [Run, Run] | null;
  /** The list of surveys, where it is asked for. */
  readonly surveys: readonly SurveySummary[] | null;
  readonly surveyed: ShownSurvey | null;
  readonly library: LibraryView;
  /** Measurand shown; `null` for the first. */
  readonly measurand: string | null;
  /** How the reader looks at the sheet; it stands in the address. */
  readonly reading: Reading;
  /** Whether the event stream of a run that goes on is cut. */
  readonly cut: boolean;
  /** A request of the reader is under way. */
  readonly busy: boolean;
  readonly trouble: Trouble | null;
}

const EMPTY: State = {
  studies: null,
  runs: null,
  chosen: null,
  run: null,
  writing: null,
  compared: null,
  surveys: null,
  surveyed: null,
  library: LIBRARY,
  measurand: null,
  reading: {},
  cut: false,
  busy: false,
  trouble: null,
};

type Listener = (now: State, before: State) => void;

/** The one place where the page's state lives. Listeners hear of every change, at most once a frame. */
export function createStore(): {
  readonly get: () => State;
  readonly set: (change: Partial<State>) => void;
  readonly listen: (listener: Listener) => void;
} {
  let state = EMPTY;
  let told = EMPTY;
  let waiting = false;
  const listeners: Listener[] = [];
  const tell = (): void => {
    waiting = false;
    const before = told;
    told = state;
    for (const listener of listeners) listener(state, before);
  };
  return {
    get: () => state,
    set: (change) => {
      state = { ...state, ...change };
      if (waiting) return;
      waiting = true;
      // A hidden page gets no frames, so that a run watched in the background must not wait for one.
      if (document.hidden) queueMicrotask(tell);
      else requestAnimationFrame(tell);
    },
    listen: (listener) => listeners.push(listener),
  };
}

export type Store = ReturnType<typeof createStore>;

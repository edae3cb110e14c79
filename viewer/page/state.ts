import type { DraftHead } from "../api/drafts.ts";
import type { Laboratory } from "../api/laboratory.ts";
import type { OwnStudy } from "../api/own-studies.ts";
import type { RunHead } from "../api/runs.ts";
import type { ListedStudy } from "../api/studies.ts";
import { LIBRARY, type LibraryView } from "./library/listing.ts";
import type { Reading } from "./reading.ts";
import { NOTHING, type Shown } from "./shown.ts";
import type { Problem } from "../../engine/index.ts";

/** What stands in the way, in words; the rest of the page stays as it was. */
export interface Trouble {
  readonly title: string;
  readonly message: string;
  /** Message and problems are the server's, which speaks English. */
  readonly english?: true;
  /** The server did not answer: what is said is over when it does. */
  readonly offline?: true;
  readonly problems: readonly Problem[];
}

/** Everything the page shows. */
export interface State {
  /** `null` until the server has answered. */
  readonly studies: readonly ListedStudy[] | null;
  readonly runs: readonly RunHead[] | null;
  /** The laboratory's own studies, drafts and defaults. */
  readonly own: readonly OwnStudy[] | null;
  readonly drafts: readonly DraftHead[] | null;
  readonly laboratory: Laboratory | null;
  /** The draft that was discarded last, which can be taken up again. */
  readonly discarded: DraftHead | null;
  readonly shown: Shown;
  readonly library: LibraryView;
  /** How the sheet is shown; it stands in the address. */
  readonly reading: Reading;
  /** A request of the reader is under way. */
  readonly busy: boolean;
  readonly trouble: Trouble | null;
}

const EMPTY: State = {
  studies: null,
  runs: null,
  own: null,
  drafts: null,
  laboratory: null,
  discarded: null,
  shown: NOTHING,
  library: LIBRARY,
  reading: {},
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

import { words } from "../language.ts";
import {
  annotateRun,
  bringBackRun,
  listDrafts,
  listOwnStudies,
  listRuns,
  listStudies,
  readLaboratory,
  RequestError,
  removeRun,
} from "../api.ts";
import type { RunHead } from "../../api/runs.ts";
import { sendWaiting } from "../drafts/kept.ts";
import type { LibraryView } from "../library/listing.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with the lists of studies and runs. */
export interface LibraryActions {
  readonly refreshLists: () => Promise<void>;
  /** Changes what the list of runs shows and in which order. */
  readonly look: (change: Partial<LibraryView>) => void;
  /** Adds a run to those chosen or takes it away, whatever the page shows of them yet. */
  readonly choose: (id: string) => void;
  /** Takes runs that have ended off the list; the last removal can be undone. */
  readonly remove: (ids: readonly string[]) => Promise<void>;
  readonly undoRemoval: () => Promise<void>;
  /** Puts one of the removed runs back on the list. @returns whether it is there */
  readonly putBack: (id: string) => Promise<boolean>;
  /** Writes a note in place of the one that the reader sees. */
  readonly annotate: (run: Pick<RunHead, "id" | "noteVersion">, note: string) => Promise<void>;
}

/** Pause before the lists are asked for again while the server does not answer, in ms. */
const AGAIN = 3000;

/** What is shown already if it is equal: what stays the same is not drawn anew. */
const unlessEqual = <T>(before: T | null, now: T): T =>
  before !== null && JSON.stringify(before) === JSON.stringify(now) ? before : now;

export function createLibraryActions({ get, set, trouble }: ActionContext): LibraryActions {
  const look = (change: Partial<LibraryView>): void => set({ library: { ...get().library, ...change } });

  let again: ReturnType<typeof setTimeout> | undefined;
  /** Readings of the lists that were asked for, and the newest of those that are shown. */
  let asked = 0;
  let shown = 0;
  /** @param quiet asks again by itself: what is wrong was said */
  const readLists = async (quiet: boolean): Promise<void> => {
    clearTimeout(again);
    const mine = (asked += 1);
    try {
      await sendWaiting();
      const [studies, runs, own, drafts, laboratory] = await Promise.all([
        listStudies(),
        listRuns(),
        listOwnStudies(),
        listDrafts(),
        readLaboratory(),
      ]);
      // An older answer that comes late would put back what was removed meanwhile.
      if (mine < shown) return;
      shown = mine;
      const known = new Set(runs.map(({ id }) => id));
      // The server answers again: that it did not is no longer true.
      const now = get();
      set({
        studies: unlessEqual(now.studies, studies),
        runs: unlessEqual(now.runs, runs),
        own: unlessEqual(now.own, own),
        drafts: unlessEqual(now.drafts, drafts),
        laboratory: unlessEqual(now.laboratory, laboratory),
        ...(now.trouble?.offline === true ? { trouble: null } : {}),
      });
      const { picked } = now.library;
      if (!picked.every((id) => known.has(id))) look({ picked: picked.filter((id) => known.has(id)) });
    } catch (error) {
      if (!quiet) trouble(words.actions.listsUnread, error);
      if (error instanceof RequestError && error.status === 0) again = setTimeout(() => void readLists(true), AGAIN);
    }
  };
  const refreshLists = (): Promise<void> => readLists(false);

  return {
    refreshLists,
    look,
    choose: (id) => {
      const { picked } = get().library;
      look({ picked: picked.includes(id) ? picked.filter((other) => other !== id) : [...picked, id], removed: [] });
    },
    remove: async (ids) => {
      set({ busy: true, trouble: null });
      const removed: string[] = [];
      try {
        // One after the other: what could not be removed is named, and the rest stays.
        for (const id of ids) {
          await removeRun(id);
          removed.push(id);
        }
        set({ busy: false });
      } catch (error) {
        trouble(words.actions.notRemoved, error);
      }
      look({ picked: [], removed });
      await refreshLists();
    },
    undoRemoval: async () => {
      set({ busy: true, trouble: null });
      try {
        for (const id of get().library.removed) await bringBackRun(id);
        set({ busy: false });
        look({ removed: [] });
      } catch (error) {
        trouble(words.actions.notBroughtBack, error);
      }
      await refreshLists();
    },
    putBack: async (id) => {
      try {
        await bringBackRun(id);
      } catch (error) {
        trouble(words.actions.notPutBack, error);
        return false;
      }
      look({ removed: get().library.removed.filter((other) => other !== id) });
      await refreshLists();
      return true;
    },
    annotate: async ({ id, noteVersion }, note) => {
      try {
        await annotateRun(id, note, noteVersion);
      } catch (error) {
        trouble(words.actions.noteNotKept, error);
      }
      await refreshLists();
    },
  };
}

import { annotateRun, listRuns, listStudies, removeRun } from "../api.ts";
import type { LibraryView } from "../library/listing.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with the lists of studies and runs. */
export interface LibraryActions {
  readonly refreshLists: () => Promise<void>;
  /** Changes what the list of runs shows and in which order. */
  readonly look: (change: Partial<LibraryView>) => void;
  /** Adds a run to those chosen or takes it away, whatever the page shows of them yet. */
  readonly choose: (id: string) => void;
  /** Deletes runs that have ended, for good. */
  readonly remove: (ids: readonly string[]) => Promise<void>;
  readonly annotate: (id: string, note: string) => Promise<void>;
}

export function createLibraryActions({ get, set, trouble }: ActionContext): LibraryActions {
  const look = (change: Partial<LibraryView>): void => set({ library: { ...get().library, ...change } });

  const refreshLists = async (): Promise<void> => {
    try {
      const [studies, runs] = await Promise.all([listStudies(), listRuns()]);
      const known = new Set(runs.map(({ id }) => id));
      set({ studies, runs });
      look({ picked: get().library.picked.filter((id) => known.has(id)) });
    } catch (error) {
      trouble("The lists of studies and runs cannot be read", error);
    }
  };

  return {
    refreshLists,
    look,
    choose: (id) => {
      const { picked } = get().library;
      look({ picked: picked.includes(id) ? picked.filter((other) => other !== id) : [...picked, id], deleting: false });
    },
    remove: async (ids) => {
      set({ busy: true, trouble: null });
      try {
        // One after the other: what could not be deleted is named, and the rest stays.
        for (const id of ids) await removeRun(id);
        set({ busy: false });
        look({ picked: [], deleting: false });
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
  };
}

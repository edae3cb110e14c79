import { words } from "../language.ts";
import type { DraftHead } from "../../api/drafts.ts";
import type { Laboratory, LaboratoryDefaults } from "../../api/laboratory.ts";
import type { OwnStudy } from "../../api/own-studies.ts";
import { writeAddress } from "../address.ts";
import { discardDraft, nameOwnStudy, readRunStudy, setLaboratory, startRun, undoDiscarding } from "../api.ts";
import { beginDraft, keepAsCopy, keptDraft, putAway } from "../drafts/kept.ts";
import type { StudyDocument } from "../new-study/draft.ts";
import { draftOf } from "../new-study/from-study.ts";
import type { Run } from "../run.ts";
import type { ActionContext } from "./context.ts";

/** A run whose study is edited: one of a list, or the one on the sheet with its record. */
type EditedRun = Pick<Run, "id" | "own"> & Partial<Pick<Run, "record">>;

/** What a reader can do with the laboratory's own studies and drafts. */
export interface OwnStudyActions {
  /** Takes the study of a run into the form: as a new version of its study, or as a copy. */
  readonly editStudy: (run: EditedRun, copy?: boolean) => Promise<void>;
  /** Runs the study that is written in the form; its draft is then no longer needed. */
  readonly runDraft: (study: unknown) => Promise<void>;
  readonly discardDraft: (draft: DraftHead) => Promise<void>;
  readonly undoDiscarding: () => Promise<void>;
  /** @returns whether it was kept */
  readonly nameStudy: (study: OwnStudy, name: string, tags: readonly string[]) => Promise<boolean>;
  /** @returns whether they were kept */
  readonly setLaboratory: (seen: Laboratory, defaults: LaboratoryDefaults) => Promise<boolean>;
}

export function createOwnStudyActions(
  { get, set, trouble }: ActionContext,
  refreshLists: () => Promise<void>,
): OwnStudyActions {
  /** Does something, then reads the lists anew; what went wrong is shown and nothing is lost. */
  const done = async (failed: string, work: () => Promise<unknown>): Promise<boolean> => {
    let fine = true;
    try {
      await work();
      set({ trouble: null });
    } catch (error) {
      trouble(failed, error);
      fine = false;
    }
    await refreshLists();
    return fine;
  };

  return {
    editStudy: async ({ id, own = null, record }, copy = false) => {
      try {
        // A record from a file has its study with it: the server has no such run.
        const start = draftOf((record?.study ?? (await readRunStudy(id))) as StudyDocument);
        const { id: draft } = beginDraft(start, own);
        if (copy) keepAsCopy(true);
        location.hash = writeAddress({ kind: "draft", id: draft });
      } catch (error) {
        trouble(words.actions.notEdited, error);
      }
    },
    runDraft: async (study) => {
      if (get().busy) return;
      set({ busy: true, trouble: null });
      try {
        const written = keptDraft();
        const { id } = await startRun(study, written?.copy === true ? "new" : (written?.own ?? undefined));
        if (written !== null) {
          await putAway(written);
          // The way back leads to the form as it was, and not to the next study.
          history.replaceState(null, "", writeAddress({ kind: "draft", id: written.id }));
        }
        // Busy until the run is on the sheet: a second press before that would run the study twice.
        location.hash = writeAddress({ kind: "run", id, measurand: null });
        void refreshLists();
      } catch (error) {
        trouble(words.actions.notRun, error);
      }
    },
    discardDraft: async (draft) => {
      if (await done(words.actions.notDiscarded, () => discardDraft(draft.id))) set({ discarded: draft });
      requestAnimationFrame(() => requestAnimationFrame(() => document.getElementById("undo-discarding")?.focus()));
    },
    undoDiscarding: async () => {
      const { discarded } = get();
      if (discarded === null) return;
      if (await done(words.actions.notTakenUp, () => undoDiscarding(discarded.id))) set({ discarded: null });
    },
    nameStudy: (study, name, tags) =>
      done(words.actions.notRenamed, () => nameOwnStudy(study.id, { name, tags: [...tags] }, study.revision)),
    setLaboratory: (seen, defaults) => done(words.actions.defaultsNotKept, () => setLaboratory(defaults, seen.version)),
  };
}

import { readTable } from "../api.ts";
import { isDraft, type Draft, type StudyDocument } from "../new-study/draft.ts";
import { draftOf } from "../new-study/from-study.ts";
import { beginDraft } from "../new-study/keeping.ts";
import { shownStudy } from "../shown.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with a study before it is run. */
export interface StudyActions {
  /** Opens the form on a study at hand, or on another draft; the one that was being written is put aside. */
  readonly write: (study: StudyDocument | Draft) => void;
  /** Reads the budget table on the sheet once more, with some columns taken for what the reader states. */
  readonly readTableAs: (columns: Readonly<Record<string, string>>) => Promise<void>;
}

export function createStudyActions({ get, set, show, trouble }: ActionContext): StudyActions {
  return {
    write: (study) => {
      const start = isDraft(study) ? study : draftOf(study);
      beginDraft(start);
      if (location.hash === "#new") show({ kind: "draft", start });
      else location.hash = "#new";
    },
    readTableAs: async (columns) => {
      const study = shownStudy(get().shown);
      if (study?.table == null) return;
      const { file } = study.table;
      try {
        const reading = await readTable(file, columns, "");
        const table = { file, reading, columns };
        set({ shown: { kind: "study", study: { ...study, document: reading.study, table } }, trouble: null });
      } catch (error) {
        trouble(`“${file.name}” cannot be read that way`, error);
        // The columns go back to what they were taken for.
        set({ shown: { kind: "study", study: { ...study } } });
      }
    },
  };
}

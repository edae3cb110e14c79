import { isDraft, type Draft, type StudyDocument } from "../new-study/draft.ts";
import { draftOf } from "../new-study/from-study.ts";
import { beginDraft } from "../new-study/keeping.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with a study before it is run. */
export interface StudyActions {
  /** Opens the form on a study at hand, or on another draft; the one that was being written is put aside. */
  readonly write: (study: StudyDocument | Draft) => void;
}

export function createStudyActions({ show }: ActionContext): StudyActions {
  return {
    write: (study) => {
      const start = isDraft(study) ? study : draftOf(study);
      beginDraft(start);
      if (location.hash === "#new") show({ kind: "draft", start });
      else location.hash = "#new";
    },
  };
}

import { writeAddress } from "../address.ts";
import { freshDraft } from "../drafts/fresh.ts";
import { beginDraft } from "../drafts/kept.ts";
import { BLANK, isDraft, type Draft, type StudyDocument } from "../new-study/draft.ts";
import { draftOf } from "../new-study/from-study.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with a study before it is run. */
export interface StudyActions {
  /** Opens the form on a study at hand, or on another draft; the one that was being written stays among the drafts. */
  readonly write: (study: StudyDocument | Draft) => void;
}

export function createStudyActions({ get }: ActionContext): StudyActions {
  return {
    write: (study) => {
      const start = study === BLANK ? freshDraft(get().laboratory) : isDraft(study) ? study : draftOf(study);
      location.hash = writeAddress({ kind: "draft", id: beginDraft(start, null).id });
    },
  };
}

import { words } from "../language.ts";
import { studyFromSurvey } from "../api.ts";
import type { StudyChoice } from "../survey/into-study.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with a survey. */
export interface SurveyActions {
  /** Makes the study of a survey, and runs it or shows it. */
  readonly studyFrom: (survey: string, choice: StudyChoice, run: boolean) => Promise<void>;
}

export function createSurveyActions(
  { get, set, showWithoutAddress, trouble }: ActionContext,
  start: (study: unknown) => Promise<void>,
): SurveyActions {
  return {
    studyFrom: async (survey, { study, distributions }, run) => {
      if (get().busy) return;
      set({ busy: true, trouble: null });
      try {
        const made = await studyFromSurvey(survey, study, distributions);
        set({ busy: false });
        if (run) await start(made.study);
        else showWithoutAddress({ kind: "study", study: { id: null, file: null, document: made.study } });
      } catch (error) {
        trouble(words.actions.notMade, error);
      }
    },
  };
}

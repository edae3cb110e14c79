import { words } from "../language.ts";
import { studyFromSurvey } from "../api.ts";
import type { StudyChoice } from "../survey/into-study.ts";
import type { ActionContext } from "./context.ts";

/** What a reader can do with a survey. */
export interface SurveyActions {
  /** Makes the study of a survey, and runs it or shows it. */
  /** Runs a study that was made of evidence, or shows it. */
  readonly takeStudy: (study: Readonly<Record<string, unknown>>, run: boolean) => Promise<void>;
  readonly studyFrom: (survey: string, choice: StudyChoice, run: boolean) => Promise<void>;
}

export function createSurveyActions(
  { get, set, showWithoutAddress, trouble }: ActionContext,
  start: (study: unknown) => Promise<void>,
): SurveyActions {
  const takeStudy: SurveyActions["takeStudy"] = async (study, run) => {
    if (run) await start(study);
    else showWithoutAddress({ kind: "study", study: { id: null, file: null, document: study } });
  };
  return {
    takeStudy,
    studyFrom: async (survey, { study, distributions, into }, run) => {
      if (get().busy) return;
      set({ busy: true, trouble: null });
      try {
        const made = await studyFromSurvey(survey, { study, distributions: { ...distributions }, into: { ...into } });
        set({ busy: false });
        await takeStudy(made.study, run);
      } catch (error) {
        trouble(words.actions.notMade, error);
      }
    },
  };
}

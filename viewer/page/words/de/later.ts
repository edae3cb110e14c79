import type { LaterWords } from "../words.ts";
import { conformityFormWords } from "./conformity-form.ts";
import { equationWords } from "./equation.ts";
import { importWords } from "./import.ts";
import { studyFormWords } from "./study-form.ts";
import { studyLacksWords } from "./study-lacks.ts";
import { studyViewWords } from "./study-view.ts";
import { surveyPlacesWords } from "./survey-places.ts";
import { surveySetupWords } from "./survey-setup.ts";
import { thermometerWords } from "./thermometers.ts";

/** Words of views whose code is loaded when they are first asked for, in German. */
export const laterDe: LaterWords = {
  conformityForm: conformityFormWords,
  studyForm: studyFormWords,
  studyLacks: studyLacksWords,
  surveySetup: surveySetupWords,
  surveyPlaces: surveyPlacesWords,
  thermometers: thermometerWords,
  import: importWords,
  studyView: studyViewWords,
  equation: equationWords,
};

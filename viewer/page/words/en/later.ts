import { selfcheckWords } from "./selfcheck.ts";
import { ownStudiesWords } from "./own-studies.ts";
import { studyTableWords } from "./study-table.ts";
import { calibrationRoomWords } from "./calibration.ts";
import { outlookWords } from "./outlook.ts";
import { surveyWords } from "./survey.ts";
import { watchWords } from "./watch.ts";
import { workersWords } from "./workers.ts";
import { formWords } from "./forms.ts";
import { fieldWords } from "./fields.ts";
import { evidenceWords } from "./evidence.ts";
import { helpWords } from "./help.ts";
import { trendWords } from "./trend.ts";
import { conformityFormWords } from "./conformity-form.ts";
import { equationWords } from "./equation.ts";
import { importWords } from "./import.ts";
import { studyWords } from "./study.ts";
import { studyFormWords } from "./study-form.ts";
import { studyLacksWords } from "./study-lacks.ts";
import { studyViewWords } from "./study-view.ts";
import { surveyPlacesWords } from "./survey-places.ts";
import { surveySetupWords } from "./survey-setup.ts";
import { thermometerWords } from "./thermometers.ts";

/** Words of views whose code is loaded when they are first asked for, in English: they are loaded with it. */
export const laterEn = {
  conformityForm: conformityFormWords,
  study: studyWords,
  studyForm: studyFormWords,
  studyLacks: studyLacksWords,
  surveySetup: surveySetupWords,
  surveyPlaces: surveyPlacesWords,
  thermometers: thermometerWords,
  import: importWords,
  studyView: studyViewWords,
  equation: equationWords,
  trend: trendWords,
  help: helpWords,
  evidence: evidenceWords,
  fields: fieldWords,
  forms: formWords,
  watch: watchWords,
  workers: workersWords,
  survey: surveyWords,
  calibrationRoom: calibrationRoomWords,
  outlook: outlookWords,
  studyTable: studyTableWords,
  ownStudies: ownStudiesWords,
  selfcheck: selfcheckWords,
} as const;

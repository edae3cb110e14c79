import type { PageWords } from "../words.ts";
import { assessorWords } from "./assessor.ts";
import { roomWords } from "./rooms.ts";
import { conformityFormWords } from "./conformity-form.ts";
import { studyViewWords } from "./study-view.ts";
import { frameWords } from "./frame.ts";
import { actionsWords } from "./actions.ts";
import { shelfWords } from "./shelf.ts";
import { libraryWords } from "./library.ts";
import { draftsWords } from "./drafts.ts";
import { equationWords } from "./equation.ts";
import { helpWords } from "./help.ts";
import { selfcheckWords } from "./selfcheck.ts";
import { sheetWords } from "./sheet.ts";
import { surveyWords } from "./survey.ts";
import { drawWords } from "./draw.ts";
import { openFileWords } from "./open-file.ts";
import { startWords } from "./start.ts";
import { trendWords } from "./trend.ts";
import { evidenceWords } from "./evidence.ts";
import { formWords } from "./forms.ts";
import { watchWords } from "./watch.ts";
import { thermometerWords } from "./thermometers.ts";
import { takeAwayWords } from "./take-away.ts";
import { surveySetupWords } from "./survey-setup.ts";
import { surveyPlacesWords } from "./survey-places.ts";
import { studyTableWords } from "./study-table.ts";
import { studyFormWords } from "./study-form.ts";
import { studyLacksWords } from "./study-lacks.ts";
import { ownStudiesWords } from "./own-studies.ts";
import { importWords } from "./import.ts";
import { fieldWords } from "./fields.ts";

/** What the page alone says, in German. */
export const de: PageWords = {
  assessor: assessorWords,
  rooms: roomWords,
  evidence: evidenceWords,
  forms: formWords,
  thermometers: thermometerWords,
  watch: watchWords,
  frame: frameWords,
  actions: actionsWords,
  shelf: shelfWords,
  library: libraryWords,
  drafts: draftsWords,
  equation: equationWords,
  help: helpWords,
  selfcheck: selfcheckWords,
  sheet: sheetWords,
  survey: surveyWords,
  draw: drawWords,
  openFile: openFileWords,
  start: startWords,
  conformityForm: conformityFormWords,
  trend: trendWords,
  studyView: studyViewWords,
  takeAway: takeAwayWords,
  surveySetup: surveySetupWords,
  surveyPlaces: surveyPlacesWords,
  studyTable: studyTableWords,
  studyForm: studyFormWords,
  studyLacks: studyLacksWords,
  ownStudies: ownStudiesWords,
  import: importWords,
  fields: fieldWords,
};

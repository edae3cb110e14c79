import { assessorWords } from "./assessor.ts";
import { roomWords } from "./rooms.ts";
import { frameWords } from "./frame.ts";
import { actionsWords } from "./actions.ts";
import { shelfWords } from "./shelf.ts";
import { libraryWords } from "./library.ts";
import { draftsWords } from "./drafts.ts";
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
import { takeAwayWords } from "./take-away.ts";
import { studyTableWords } from "./study-table.ts";
import { ownStudiesWords } from "./own-studies.ts";
import { fieldWords } from "./fields.ts";

/** What the page alone says, in English: one file a room. What report and terminal say too stands in viewer/present. */
export const en = {
  assessor: assessorWords,
  rooms: roomWords,
  evidence: evidenceWords,
  forms: formWords,
  watch: watchWords,
  frame: frameWords,
  actions: actionsWords,
  shelf: shelfWords,
  library: libraryWords,
  drafts: draftsWords,
  help: helpWords,
  selfcheck: selfcheckWords,
  sheet: sheetWords,
  survey: surveyWords,
  draw: drawWords,
  openFile: openFileWords,
  start: startWords,
  trend: trendWords,
  takeAway: takeAwayWords,
  studyTable: studyTableWords,
  ownStudies: ownStudiesWords,
  fields: fieldWords,
} as const;

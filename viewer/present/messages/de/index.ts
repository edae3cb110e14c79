import { budgetWords } from "./budget.ts";
import { calibrationWords } from "./calibration.ts";
import { calibrationCertificateWords } from "./calibration-certificate.ts";
import { capabilityWords } from "./capability.ts";
import { conformityWords } from "./conformity.ts";
import { equivalenceWords } from "./equivalence.ts";
import { figureWords } from "./figures.ts";
import { frameWords } from "./frame.ts";
import { historyWords } from "./history.ts";
import { laboratoryWords } from "./laboratory.ts";
import { linearisedWords } from "./linearised.ts";
import { monteCarloWords } from "./monte-carlo.ts";
import { panelWords } from "./panels.ts";
import { planningWords } from "./planning.ts";
import { provenanceWords } from "./provenance.ts";
import { quantitiesWords } from "./quantities.ts";
import { recordPlaceWords } from "./record-places.ts";
import { resultPanelWords } from "./result-panels.ts";
import { resultWords } from "./result.ts";
import { selfcheckWords } from "./selfcheck.ts";
import { surveyPanelWords } from "./survey-panels.ts";
import { surveyWords } from "./survey.ts";
import { togetherWords } from "./together.ts";
import { watchWords } from "./watch.ts";
import { workbookWords } from "./workbook.ts";
import type { Messages } from "../messages.ts";

/** All words of page, report and terminal in German: one file a concern. */
export const de: Messages = {
  ...frameWords,
  ...resultWords,
  ...quantitiesWords,
  ...budgetWords,
  ...linearisedWords,
  ...monteCarloWords,
  ...conformityWords,
  ...togetherWords,
  ...provenanceWords,
  ...recordPlaceWords,
  ...panelWords,
  ...resultPanelWords,
  ...surveyWords,
  ...selfcheckWords,
  ...surveyPanelWords,
  ...figureWords,
  ...laboratoryWords,
  ...watchWords,
  ...workbookWords,
  ...calibrationWords,
  ...capabilityWords,
  ...calibrationCertificateWords,
  ...equivalenceWords,
  ...planningWords,
  ...historyWords,
};

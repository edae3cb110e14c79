import type { EvaluatedSurvey, FittingStudies } from "../../api/surveys.ts";

/** The survey on the sheet, with the studies it can go into, those of its own bath first. */
export interface ShownSurvey {
  readonly survey: EvaluatedSurvey;
  readonly studies: FittingStudies;
}

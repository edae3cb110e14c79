import { budgetTemplate } from "./budget.ts";
import { readingsDescriptionTemplate, readingsTemplate } from "./readings.ts";
import { fillInTemplate } from "./fill-in.ts";
import {
  surveyDescriptionTemplate,
  surveyLogTemplate,
  surveyPositionsTemplate,
  surveyStepsTemplate,
} from "./survey.ts";
import type { Template } from "./template.ts";

/** Files to fill in, in the order in which they are offered. */
export const templates: readonly Template[] = [
  budgetTemplate,
  fillInTemplate,
  surveyLogTemplate,
  surveyPositionsTemplate,
  surveyStepsTemplate,
  readingsTemplate,
  surveyDescriptionTemplate,
  readingsDescriptionTemplate,
];

export type { Template, TemplateFor } from "./template.ts";

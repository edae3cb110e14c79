import { budgetTemplate } from "./budget.ts";
import { readingsDescriptionTemplate, readingsTemplate } from "./readings.ts";
import { surveyLogTemplate, surveyStepsTemplate } from "./survey.ts";
import type { Template } from "./template.ts";

/** Files to fill in, in the order in which they are offered. */
export const templates: readonly Template[] = [
  budgetTemplate,
  surveyLogTemplate,
  surveyStepsTemplate,
  readingsTemplate,
  readingsDescriptionTemplate,
];

export type { Template, TemplateFor } from "./template.ts";

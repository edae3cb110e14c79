import type { ProbeEvaluation } from "../../models/index.ts";
import { en } from "../present/messages/en/index.ts";
import { ENGLISH } from "../present/statement.ts";
import { cyclesTable, meanTable } from "../present/tables/readings.ts";
import { checkPart, listPart, presentedPart, type Layout } from "./lines.ts";

/** One probe's evaluation for a terminal. */
export const probeLines = (evaluation: ProbeEvaluation, layout: Layout): string[] => [
  ...presentedPart(layout, cyclesTable(evaluation, ENGLISH)),
  ...presentedPart(layout, meanTable(evaluation, ENGLISH)),
  ...checkPart(layout, evaluation.checks),
  ...listPart(layout, en.survey.reasoning, evaluation.reasoning),
];

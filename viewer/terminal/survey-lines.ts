import type { SurveyEvaluation } from "../../models/index.ts";
import { en } from "../present/messages/en/index.ts";
import { ENGLISH } from "../present/statement.ts";
import { cautionTexts, samplingText } from "../present/survey-sentences.ts";
import {
  allanTable,
  offsetsTable,
  pointsTable,
  smallerTable,
  windowsTable,
  zonesTable,
} from "../present/tables/survey.ts";
import { wrap } from "./table.ts";
import { checkPart, listPart, presentedPart, type Layout } from "./lines.ts";

/** A survey's evaluation for a terminal. */
export function surveyLines(
  evaluation: SurveyEvaluation,
  series: { readonly notes: readonly string[] },
  files: readonly { readonly name: string; readonly sha256: string }[],
  layout: Layout,
): string[] {
  const { title, samplings, checks, reasoning } = evaluation;
  const { styles, width } = layout;
  const logged = Object.entries(samplings).map(([name, sampling]) => `${name}: ${samplingText(sampling, ENGLISH)}`);
  return [
    styles.bold(title),
    ...files.map(({ name, sha256 }) => styles.dim(`${name}  SHA-256 ${sha256}`)),
    ...[...logged, ...series.notes].map((line) => wrap(line, width, "  ")),
    ...[windowsTable, allanTable, pointsTable, offsetsTable, zonesTable, smallerTable].flatMap((tableOf) =>
      presentedPart(layout, tableOf(evaluation, ENGLISH)),
    ),
    ...checkPart(layout, checks),
    ...listPart(layout, en.survey.reasoning, reasoning),
    ...listPart(
      layout,
      en.sections.cautions,
      cautionTexts(evaluation.safety, ENGLISH, true).map(({ head, text }) =>
        head === null ? text : `${head} ${text}`,
      ),
    ),
  ];
}

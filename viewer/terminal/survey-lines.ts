import type { SurveyEvaluation } from "../../models/index.ts";
import { en } from "../present/messages/en/index.ts";
import { ENGLISH } from "../present/statement.ts";
import { duration, moment } from "../present/survey-figures.ts";
import {
  allanTable,
  offsetsTable,
  pointsTable,
  smallerTable,
  windowsTable,
  zonesTable,
} from "../present/tables/survey.ts";
import { wrap } from "./table.ts";
import { checkPart, listPart, part, presentedPart, type Layout } from "./lines.ts";

/** A survey's evaluation for a terminal. */
export function surveyLines(
  evaluation: SurveyEvaluation,
  series: { readonly notes: readonly string[] },
  files: readonly { readonly name: string; readonly sha256: string }[],
  layout: Layout,
): string[] {
  const { title, samplings, checks, reasoning } = evaluation;
  const { styles, width } = layout;
  const logged = Object.entries(samplings).map(
    ([name, { samples, interval, from, to }]) =>
      `${name}: ${samples} readings, one every ${duration(interval)}, ${moment(from)} to ${moment(to)}`,
  );
  return [
    styles.bold(title),
    ...files.map(({ name, sha256 }) => styles.dim(`${name}  SHA-256 ${sha256}`)),
    ...[...logged, ...series.notes].map((line) => wrap(line, width, "  ")),
    ...[windowsTable, allanTable, pointsTable, offsetsTable, zonesTable, smallerTable].flatMap((tableOf) =>
      presentedPart(layout, tableOf(evaluation, ENGLISH)),
    ),
    ...checkPart(layout, checks),
    ...listPart(layout, en.survey.reasoning, reasoning),
    ...safetyPart(evaluation, layout),
  ];
}

function safetyPart({ safety }: SurveyEvaluation, layout: Layout): string[] {
  if (safety === null)
    return part(layout, en.sections.cautions, ["The description names no bath: nothing could be judged."]);
  const { warnings, unknown, cautions } = safety;
  return listPart(layout, en.sections.cautions, [
    ...warnings.map(({ place, warning, because }) => `Warning (${place}): ${warning}; ${because}.`),
    ...(unknown.length === 0 ? [] : [`Not judged: ${unknown.join("; ")}.`]),
    ...cautions,
  ]);
}

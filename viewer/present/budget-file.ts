import type { RunRecord } from "../../engine/index.ts";
import { budgetHeads, distributionWords, type BudgetRow } from "./budget.ts";
import type { Messages } from "./messages/messages.ts";
import { quotientUnit } from "./numbers.ts";
import { labelText } from "./pictures/label.ts";
import type { Readable } from "./readable.ts";
import { symbolText } from "./symbol.ts";

/**
 * The rows of a budget for a file: a column for each figure at full precision, units in columns of their own, and the
 * result below. Numbers are as machines write them.
 */
export function budgetFile(
  { study, inputs }: Pick<RunRecord, "study" | "inputs">,
  measurand: Readable,
  rows: readonly BudgetRow[],
  messages: Messages,
): readonly (readonly string[])[] {
  const heads = budgetHeads(measurand, messages);
  const { linear, symbol, meaning, unit } = measurand;
  const { meaning: ofMeaning, source } = messages.workbook;
  const figure = (value: number | null): string => (value === null ? "∞" : String(value));
  return [
    [
      labelText(heads.quantity),
      ofMeaning,
      labelText(heads.distribution),
      labelText(heads.estimate),
      labelText(heads.uncertainty),
      labelText(heads.unit),
      labelText(heads.evaluation),
      labelText(heads.freedom),
      labelText(heads.sensitivity),
      labelText(heads.sensitivityUnit),
      labelText(heads.contribution),
      labelText(heads.share),
      source,
    ],
    ...rows.map(({ name, line }) => {
      const input = inputs[name]!;
      return [
        symbolText(input.symbol),
        input.meaning,
        distributionWords(study.inputs[name]!.distribution, input.distribution, messages),
        figure(line.estimate),
        figure(line.standardUncertainty),
        input.unit,
        line.evaluation,
        figure(line.degreesOfFreedom),
        figure(line.sensitivityCoefficient),
        quotientUnit(measurand.bareUnit, input.unit),
        figure(line.contribution),
        figure(line.share),
        input.source ?? "",
      ];
    }),
    ...linear.correlatedTerms.map(({ between: [a, b], coefficient, share }) => [
      `${symbolText(inputs[a]!.symbol)}, ${symbolText(inputs[b]!.symbol)}`,
      `r = ${coefficient}`,
      ...Array.from({ length: 9 }, () => ""),
      figure(share),
      "",
    ]),
    [
      symbolText(symbol),
      meaning,
      "",
      figure(linear.estimate),
      figure(linear.standardUncertainty),
      unit,
      "",
      figure(linear.effectiveDegreesOfFreedom),
      "",
      "",
      figure(linear.standardUncertainty),
      "",
      "",
    ],
  ];
}

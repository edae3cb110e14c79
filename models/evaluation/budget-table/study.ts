import type { StudyDocument } from "../../../engine/index.ts";
import { placeholderSymbol } from "./names.ts";
import type { BudgetTerm } from "./term.ts";

/** What the study is called, and what its result is. */
export interface BudgetTableOptions {
  readonly title: string;
  readonly measurand?: {
    readonly name?: string;
    readonly symbol?: string;
    readonly meaning?: string;
    readonly unit?: string;
  };
  readonly coverage?: StudyDocument["coverage"];
}

/** The study that the terms of a table make, run as a study from the form is. */
export function studyOf(
  terms: readonly BudgetTerm[],
  unit: string,
  { title, measurand, coverage }: BudgetTableOptions,
): StudyDocument {
  return {
    title,
    model: "additive",
    parameters: {
      coefficients: Object.fromEntries(terms.map(({ input, sensitivity }) => [input, sensitivity])),
      measurand: {
        ...measurand,
        ...(unit === "" ? {} : { unit }),
        // That it is a temperature follows from large figures alone, which does not suffice to convert it.
        ...(unit === "°C" && resultIsDifference(terms) ? { difference: true } : {}),
      },
      terms: Object.fromEntries(
        terms.map(({ input, symbol, quantity, unit: own, temperature }, i) => [
          input,
          {
            symbol: symbol ?? placeholderSymbol(i + 1),
            meaning: quantity,
            ...(own === "" ? {} : { unit: own }),
            ...(temperature === null ? {} : { difference: !temperature }),
          },
        ]),
      ),
    },
    inputs: Object.fromEntries(terms.map(({ input, statement }) => [input, statement])),
    ...(coverage === undefined ? {} : { coverage }),
    trials: "adaptive",
  };
}

/** One temperature more added than taken away leaves a temperature; as many of both leave a difference. */
export const resultIsDifference = (terms: readonly BudgetTerm[]): boolean =>
  Math.abs(terms.reduce((sum, { temperature, sensitivity }) => sum + (temperature === true ? sensitivity : 0), 0)) <
  0.5;

import { distributionTitle } from "../../engine/distributions/titles.ts";
import type { ContributionRecord, InputRecord, RunRecord } from "../../engine/index.ts";
import { estimateEntries } from "./entries.ts";
import type { Messages } from "./messages/messages.ts";
import { decimalsFor, dividedBy, quotientUnit, type Entry, type Numbers } from "./numbers.ts";
import { labelOf } from "./pictures/label.ts";
import type { Label } from "./pictures/scene.ts";
import type { Readable } from "./readable.ts";

/** One input quantity of a linear budget, as every medium prints it. */
export interface BudgetRow {
  readonly name: string;
  readonly input: InputRecord;
  /** Its figures, in the unit of the measurand shown. */
  readonly line: ContributionRecord;
  readonly estimate: Entry;
  readonly uncertainty: Entry;
  readonly freedom: string;
  readonly sensitivity: Entry;
  readonly contribution: string;
  readonly share: string;
}

type Sources = Pick<RunRecord, "inputs">;

/** The rows of a measurand's budget in the model's order. */
export function budgetRows({ inputs }: Sources, measurand: Readable, numbers: Numbers): BudgetRow[] {
  return measurand.linear.contributions.map((line): BudgetRow => {
    const input = inputs[line.input]!;
    return {
      name: line.input,
      input,
      line,
      ...estimateEntries(line.estimate, line.standardUncertainty, input.unit, numbers),
      freedom: numbers.freedom(line.degreesOfFreedom),
      sensitivity: numbers.entry(line.sensitivityCoefficient, 3, quotientUnit(measurand.bareUnit, input.unit)),
      contribution: numbers.fixed(line.contribution, measurand.contributionPlaces),
      share: numbers.percent(line.share),
    };
  });
}

/** The heads of a budget's columns. */
export type BudgetHeads = Readonly<
  Record<
    | "quantity"
    | "distribution"
    | "estimate"
    | "uncertainty"
    | "unit"
    | "evaluation"
    | "freedom"
    | "sensitivity"
    | "sensitivityUnit"
    | "contribution"
    | "share",
    Label
  >
>;

export function budgetHeads({ symbol, unit }: Readable, { budget: words, inputs }: Messages): BudgetHeads {
  const [x, u, c] = [{ symbol: "x_i" }, { symbol: "u" }, { symbol: "c_i" }];
  return {
    quantity: words.quantity,
    distribution: inputs.distribution,
    estimate: labelOf(words.estimate, { x }),
    uncertainty: labelOf(words.uncertainty, { u, x }),
    unit: words.unit,
    evaluation: words.evaluation,
    freedom: [{ symbol: "ν_i" }],
    sensitivity: [c],
    sensitivityUnit: labelOf(words.sensitivityUnit, { c }),
    contribution: [...labelOf(words.contribution, { c, u, x }), dividedBy(unit)],
    share: labelOf(words.share, { u, y: { symbol } }),
  };
}

/** The result below the rows: y, u(y) and ν_eff, and u(y) again as the sum of the contributions. */
export interface BudgetTotal {
  readonly estimate: string;
  readonly uncertainty: string;
  readonly freedom: string;
  readonly contribution: string;
}

export function budgetTotal({ linear, contributionPlaces }: Readable, numbers: Numbers): BudgetTotal {
  const { estimate, standardUncertainty: u, effectiveDegreesOfFreedom } = linear;
  const places = Math.max(0, decimalsFor(u, 2));
  return {
    estimate: u === 0 ? numbers.plain(Number(estimate.toPrecision(15))) : numbers.fixed(estimate, places),
    uncertainty: u === 0 ? "0" : numbers.fixed(u, places),
    freedom: numbers.freedom(effectiveDegreesOfFreedom),
    contribution: numbers.fixed(u, contributionPlaces),
  };
}

/** The name of a kind of distribution; `title`, which a record has in English, where the language has no word for it. */
export function distributionWords(kind: string, title: string, { language }: Messages): string {
  const known = distributionTitle(kind, language);
  return known === kind ? title : known;
}

import type { ContributionRecord, InputRecord, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { decimalsFor, fixed, quotientUnit, whole } from "../../present/numbers.ts";
import { readable } from "../../present/readable.ts";
import { estimateEntry, significantEntry, type Entry } from "../../present/statement.ts";

/** One input quantity of the budget with the texts of its columns. */
export interface BudgetRow {
  readonly name: string;
  readonly input: InputRecord;
  readonly line: ContributionRecord;
  readonly estimate: Entry;
  readonly uncertainty: Entry;
  readonly freedom: Entry;
  readonly sensitivity: Entry;
  readonly contribution: Entry;
}

/** What the columns can be put in order by, and which way that goes first. */
export const ORDERS = {
  symbol: { first: 1, value: ({ input }: BudgetRow) => input.symbol },
  distribution: { first: 1, value: ({ input }: BudgetRow) => input.distribution },
  estimate: { first: -1, value: ({ line }: BudgetRow) => line.estimate },
  uncertainty: { first: -1, value: ({ line }: BudgetRow) => line.standardUncertainty },
  freedom: { first: 1, value: ({ line }: BudgetRow) => line.degreesOfFreedom ?? Infinity },
  sensitivity: { first: -1, value: ({ line }: BudgetRow) => Math.abs(line.sensitivityCoefficient) },
  contribution: { first: -1, value: ({ line }: BudgetRow) => Math.abs(line.contribution) },
  share: { first: -1, value: ({ line }: BudgetRow) => line.share },
} as const satisfies Record<string, { first: 1 | -1; value: (row: BudgetRow) => number | string }>;

export type Order = keyof typeof ORDERS;
export const isOrder = (name: string | undefined): name is Order => name !== undefined && Object.hasOwn(ORDERS, name);

/** Decimals all contributions share: one more than u(y) shows with two significant digits. */
export const contributionPlaces = ({ linear: { standardUncertainty: u } }: MeasurandRecord): number =>
  u === 0 ? 0 : Math.max(0, decimalsFor(u, 2) + 1);

/**
 * The rows of a measurand's budget in the model's order.
 *
 * @param unit unit of the contributions, or `null` for the record's; coefficients keep that of model and input
 */
export function rowsOf(record: RunRecord, measurandName: string, unit: string | null = null): BudgetRow[] {
  const own = record.measurands[measurandName]!;
  const measurand = readable(own, unit);
  const places = contributionPlaces(measurand);
  return measurand.linear.contributions.map((line): BudgetRow => {
    const input = record.inputs[line.input]!;
    const { estimate, standardUncertainty: u, degreesOfFreedom: ν, sensitivityCoefficient: c } = line;
    return {
      name: line.input,
      input,
      line,
      estimate: estimateEntry(estimate, u, input.unit),
      uncertainty: significantEntry(u, 2, input.unit),
      freedom: { digits: ν === null ? "∞" : Number.isInteger(ν) ? whole(ν) : fixed(ν, 1), after: "" },
      sensitivity: significantEntry(c, 3, quotientUnit(own.unit, input.unit)),
      contribution: { digits: fixed(line.contribution, places), after: "" },
    };
  });
}

/** Rows put in an order; `direction` 1 goes upwards. Equal rows keep their places. */
export function inOrder(rows: readonly BudgetRow[], order: Order, direction: 1 | -1): BudgetRow[] {
  const { value } = ORDERS[order];
  return rows.toSorted((a, b) => direction * compare(value(a), value(b)));
}

const compare = (a: number | string, b: number | string): number =>
  typeof a === "string" || typeof b === "string" ? String(a).localeCompare(String(b), "en") : a === b ? 0 : a - b;

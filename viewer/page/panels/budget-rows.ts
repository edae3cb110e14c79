import type { BudgetRow } from "../../present/budget.ts";

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

/** Rows put in an order; `direction` 1 goes upwards. Equal rows keep their places. */
export function inOrder(rows: readonly BudgetRow[], order: Order, direction: 1 | -1): BudgetRow[] {
  const { value } = ORDERS[order];
  return rows.toSorted((a, b) => direction * compare(value(a), value(b)));
}

const compare = (a: number | string, b: number | string): number =>
  typeof a === "string" || typeof b === "string" ? String(a).localeCompare(String(b), "en") : a === b ? 0 : a - b;

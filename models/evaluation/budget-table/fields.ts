/** What a column of a budget table can hold. */
export const BUDGET_FIELDS = [
  "quantity",
  "symbol",
  "estimate",
  "unit",
  "stated",
  "standard",
  "lower",
  "upper",
  "howStated",
  "distribution",
  "type",
  "divisor",
  "sensitivity",
  "degreesOfFreedom",
  "readings",
  "contribution",
  "share",
  "source",
] as const;

export type BudgetField = (typeof BUDGET_FIELDS)[number];

/**
 * How a figure states an uncertainty: GUM 3.1 and 3.2.3 for the first two, 4.3.7 for limits, 4.2.2 for the standard
 * deviation of single readings, of which u is the nth part by the root of their number (4.2.3).
 */
export const STATED = ["standard", "expanded", "half-width", "full-width", "deviation"] as const;

export type Stated = (typeof STATED)[number];

/** Distributions that budgets name. */
export const SHAPES = ["normal", "rectangular", "triangular", "arcsine", "t"] as const;

export type Shape = (typeof SHAPES)[number];

/** What a row of a budget table is. */
export const ROW_KINDS = ["input", "total", "result", "expanded", "left-out"] as const;

export type RowKind = (typeof ROW_KINDS)[number];

/** Fields whose cells are figures. */
export const FIGURE_FIELDS: ReadonlySet<BudgetField> = new Set<BudgetField>([
  "estimate",
  "stated",
  "standard",
  "lower",
  "upper",
  "sensitivity",
  "contribution",
]);

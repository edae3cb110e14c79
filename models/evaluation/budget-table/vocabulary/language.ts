import type { BudgetField, Shape, Stated } from "../fields.ts";

/**
 * How one language heads the columns and names the rows of a budget. Words are compared without case, accents, spaces
 * and marks; one of five letters and more is also found inside a longer heading, where the longest one decides.
 */
export interface Language {
  readonly headings: Readonly<Partial<Record<BudgetField, readonly string[]>>>;
  /** Words in a heading or a cell that tell how an uncertainty is stated. */
  readonly stated: Readonly<Record<Stated, readonly string[]>>;
  readonly shapes: Readonly<Record<Shape, readonly string[]>>;
  /** Words that a row which sums up begins with. */
  readonly rows: {
    readonly total: readonly string[];
    readonly expanded: readonly string[];
    readonly result: readonly string[];
    readonly coverageFactor: readonly string[];
    readonly degreesOfFreedom: readonly string[];
  };
  readonly infinite: readonly string[];
  /** Headings of a column of factors to multiply with, in place of divisors. */
  readonly multiplier: readonly string[];
}

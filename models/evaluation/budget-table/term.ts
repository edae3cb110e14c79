import type { Statement } from "../../../engine/index.ts";

/** One term of the table as it was understood. */
export interface BudgetTerm {
  readonly row: number;
  readonly input: string;
  /** As the table states it; `null` if it states none. */
  readonly symbol: string | null;
  readonly quantity: string;
  /** Value of a constant, else the estimate, in the unit of the term. */
  readonly estimate: number;
  readonly statement: Statement;
  /** Sensitivity coefficient in units of the measurand per unit of the term. */
  readonly sensitivity: number;
  readonly unit: string;
  /** True for a temperature, false for a difference of temperatures; `null` for what is not in °C. */
  readonly temperature: boolean | null;
  readonly standardUncertainty: number;
  /** Assumptions made, in words. */
  readonly assumed: readonly string[];
}

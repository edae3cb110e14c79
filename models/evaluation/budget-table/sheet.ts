import type { TableRow } from "../table/table.ts";

/** One sheet of a file; a text file is one without a name. */
export interface BudgetSheet {
  readonly name: string | null;
  readonly rows: readonly TableRow[];
}

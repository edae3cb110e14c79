// A budget that exists as a table becomes an additive study.
export { readBudgetTable } from "./budget-table.ts";
export { mapHeadings } from "./headings.ts";

export type { BudgetSummaryRow, BudgetTableOptions, BudgetTableReading, BudgetTerm } from "./budget-table.ts";
export type { BudgetField, ColumnMapping } from "./headings.ts";

// A budget that exists as a table becomes an additive study.
export { applyMapping } from "./apply.ts";
export { complete, problemsOf, readBudgetTable, readMapped } from "./budget-table.ts";
export { BUDGET_FIELDS } from "./fields.ts";
export { statedMappingSchema } from "./mapping.ts";
export { proposeMapping } from "./propose.ts";

export { asStated } from "./turned.ts";
export { isKnownUnit } from "./unit-scale.ts";

export type { AppliedMapping, CellComplaint } from "./apply.ts";
export type { BudgetTableReading, ColumnMapping, CompleteReading } from "./budget-table.ts";
export type { BudgetSummaryRow } from "./compare.ts";
export type { BudgetField, RowKind, Shape, Stated } from "./fields.ts";
export type {
  BudgetMapping,
  ColumnMeaning,
  MappingAnswer,
  MappingQuestion,
  RowMeaning,
  StatedMapping,
} from "./mapping.ts";
export type { MappingProposal } from "./propose.ts";
export type { BudgetSheet } from "./sheet.ts";
export type { BudgetTableOptions } from "./study.ts";
export type { BudgetTerm } from "./term.ts";

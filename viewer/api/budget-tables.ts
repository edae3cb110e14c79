import type { BudgetTableReading } from "../../models/index.ts";

/** `POST /api/budget-tables`: a budget table as it was understood, and the study it makes. */
export type TableReading = BudgetTableReading;

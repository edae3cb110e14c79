import type { Cell, TableRow } from "../table/table.ts";
import type { BudgetSheet } from "./sheet.ts";

/** Most rows of a sheet that is turned: they become columns, of which a budget has few. */
const MOST_ROWS = 200;

/** A sheet whose inputs stand in columns with its columns as rows; `null` if it has more rows than a budget turned has. */
export function turned({ name, rows }: BudgetSheet): BudgetSheet | null {
  if (rows.length > MOST_ROWS) return null;
  const width = Math.max(0, ...rows.map(({ cells }) => cells.length));
  return {
    name,
    rows: Array.from({ length: width }, (_, column): TableRow => ({
      row: column + 1,
      cells: rows.map(({ cells }): Cell => cells[column] ?? null),
    })),
  };
}

/** The sheets as a mapping reads them. */
export const asStated = (sheets: readonly BudgetSheet[], isTurned: boolean): readonly BudgetSheet[] =>
  isTurned ? sheets.map((sheet) => turned(sheet) ?? sheet) : sheets;

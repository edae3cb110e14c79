import type { Column } from "./columns.ts";
import { BLANK_ROW, newKey, type Row } from "./row.ts";

/** The rows with a new one after the one at a place; it takes over the unit above it, which most often is its own. */
export function withNewRow(
  rows: readonly Row[],
  after: number,
): { readonly rows: readonly Row[]; readonly key: string } {
  const above = rows[after];
  const key = newKey(rows);
  const row: Row = { ...BLANK_ROW, key, unit: above?.unit ?? "", ofTemperature: above?.ofTemperature ?? "" };
  return { rows: rows.toSpliced(after + 1, 0, row), key };
}

/** The rows with one moved up (−1) or down (1); unchanged at the ends. */
export function withMoved(rows: readonly Row[], at: number, by: -1 | 1): readonly Row[] {
  const row = rows[at];
  if (row === undefined || at + by < 0 || at + by >= rows.length) return rows;
  return rows.toSpliced(at, 1).toSpliced(at + by, 0, row);
}

/** The rows from one place to another with the cell of the row at `from`. */
export const withFilled = (rows: readonly Row[], column: Column, from: number, to: number): readonly Row[] =>
  rows.map((row, i) => (i > from && i <= to ? column.set(row, column.get(rows[from]!)) : row));

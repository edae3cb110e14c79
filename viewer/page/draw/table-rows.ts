import { cellsOf } from "../../present/csv.ts";

const ROWS = new WeakMap<HTMLTableElement, () => readonly (readonly string[])[]>();

/** States the rows of a table as files have them, where its cells on the page say less or say it otherwise. */
export const stateRows = (table: HTMLTableElement, rows: () => readonly (readonly string[])[]): void =>
  void ROWS.set(table, rows);

/** The rows of a table for a file. */
export const rowsOf = (table: HTMLTableElement): readonly (readonly string[])[] =>
  ROWS.get(table)?.() ?? cellsOf(table);

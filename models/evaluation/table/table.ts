/** A cell as a file gives it. */
export type Cell = string | number | boolean | null;

/** A row with its number in the file, from 1. */
export interface TableRow {
  readonly row: number;
  readonly cells: readonly Cell[];
  /** The file ends within this row: no line end follows it. */
  readonly unfinished?: true;
}

/** A table that is read once, from top to bottom, in pieces. */
export interface Table {
  /** For messages. */
  readonly name: string;
  readonly pieces: AsyncIterable<readonly TableRow[]>;
  /** Filled while the table is read. */
  readonly notes: readonly string[];
}

/** All rows of a table that is small. @throws {InputError} */
export async function allRows(table: Table): Promise<readonly TableRow[]> {
  const rows: TableRow[] = [];
  for await (const piece of table.pieces) rows.push(...piece);
  return rows;
}

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

/** Column letters: A…Z, AA… */
export function columnLetter(index: number): string {
  const last = String.fromCodePoint(65 + (index % 26));
  return index < 26 ? last : columnLetter(Math.floor(index / 26) - 1) + last;
}

/** Index of a column by its letters: A is 0, Z is 25, AA is 26. */
export const columnIndex = (letters: string): number =>
  Array.from(letters).reduce((number, letter) => 26 * number + letter.codePointAt(0)! - 64, 0) - 1;

import type { TableRow } from "../../models/index.ts";
import { csvRows } from "../../models/evaluation/table/csv.ts";
import { bytesOf, chunksOf, nameOf, type RecordSource } from "./source.ts";
import { decode } from "./text.ts";
import { MOST_SPREADSHEET_BYTES, xlsxRows } from "./xlsx.ts";

/** A table that is read once, from top to bottom, in pieces. */
export interface Table {
  readonly name: string;
  readonly pieces: AsyncIterable<readonly TableRow[]>;
  /** Filled while the table is read. */
  readonly notes: readonly string[];
}

/** Opens a CSV or XLSX record. CSV streams; a spreadsheet is held. @throws {InputError} here or while reading */
export function openTable(source: RecordSource, sheet?: string): Table {
  const name = nameOf(source);
  if (/\.xlsx$/i.test(name)) return { name, pieces: sheetPieces(source, name, sheet), notes: [] };
  const { text, notes } = decode(chunksOf(source), name);
  return { name, pieces: csvRows(text, name), notes };
}

async function* sheetPieces(
  source: RecordSource,
  name: string,
  sheet: string | undefined,
): AsyncGenerator<readonly TableRow[]> {
  yield await xlsxRows(await bytesOf(source, MOST_SPREADSHEET_BYTES), name, sheet);
}

/** All rows of a table that is small. @throws {InputError} */
export async function allRows(table: Table): Promise<readonly TableRow[]> {
  const rows: TableRow[] = [];
  for await (const piece of table.pieces) rows.push(...piece);
  return rows;
}

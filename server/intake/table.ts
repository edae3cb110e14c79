import { csvRows, logRows, type Table, type TableRow } from "../../models/index.ts";
import { bytesOf, chunksOf, nameOf, type FileSource } from "./source.ts";
import { decode } from "./text.ts";
import { MOST_SPREADSHEET_BYTES, xlsxRows } from "./xlsx.ts";

/** Opens a CSV or XLSX table. CSV streams; a spreadsheet is held. @throws {InputError} here or while reading */
export function openTable(source: FileSource, sheet?: string): Table {
  const name = nameOf(source);
  if (/\.xlsx$/i.test(name)) return { name, pieces: sheetPieces(source, name, sheet), notes: [] };
  const { text, notes } = decode(chunksOf(source), name);
  return { name, pieces: csvRows(text, name), notes };
}

/**
 * Opens a log: as a table, but with the separator that its lines show, whatever an instrument wrote above them, and with
 * the last line marked if the file ends within it.
 */
export function openLog(source: FileSource, sheet?: string): Table {
  const name = nameOf(source);
  if (/\.xlsx$/i.test(name)) return openTable(source, sheet);
  const decoded = decode(chunksOf(source), name);
  const notes: string[] = [];
  return {
    name,
    pieces: logRows(decoded.text, name, notes),
    get notes() {
      return [...decoded.notes, ...notes];
    },
  };
}

async function* sheetPieces(
  source: FileSource,
  name: string,
  sheet: string | undefined,
): AsyncGenerator<readonly TableRow[]> {
  yield await xlsxRows(await bytesOf(source, MOST_SPREADSHEET_BYTES), name, sheet);
}

// Tables: rows of cells, from text or from a spreadsheet.
export { CsvParser, csvRows } from "./csv.ts";
export { allRows, columnIndex, columnLetter } from "./table.ts";
export { writtenRows } from "./written.ts";

export type { CsvRow } from "./csv.ts";
export type { Cell, Table, TableRow } from "./table.ts";

// Tables: rows of cells, from text or from a spreadsheet.
export { CsvParser, csvRows } from "./csv.ts";
export { allRows } from "./table.ts";

export type { CsvRow } from "./csv.ts";
export type { Cell, Table, TableRow } from "./table.ts";

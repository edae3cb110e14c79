import { guarded } from "../../present/csv.ts";

export type CellValue = string | number;

const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** A name as a spreadsheet takes it for a sheet: 31 characters, without its own signs. */
const sheetName = (name: string): string =>
  name
    .replace(/[[\]:*?/\\']/g, " ")
    .slice(0, 31)
    .trim() || "Sheet";

/** A table as a spreadsheet: numbers as numbers at full precision, and a second sheet with where they come from. */
export async function tableFile(
  rows: readonly (readonly CellValue[])[],
  names: { readonly table: string; readonly about: string },
  about: readonly (readonly [string, string])[],
): Promise<Blob> {
  // Loaded when a table is first taken: nobody else needs it.
  const { default: writeExcel } = await import("write-excel-file/browser");
  const cell = (value: CellValue, bold: boolean) => ({
    ...(typeof value === "number" ? { type: Number, value } : { type: String, value: guarded(value) }),
    ...(bold ? { fontWeight: "bold" as const } : {}),
  });
  const sheet = (cells: readonly (readonly CellValue[])[]) =>
    cells.map((row, i) => row.map((value) => (value === "" ? null : cell(value, i === 0 && cells === rows))));
  const file = await writeExcel([
    { data: sheet(rows), sheet: sheetName(names.table) },
    { data: sheet(about), sheet: sheetName(names.about) },
  ]).toBlob();
  return file.type === "" ? new Blob([file], { type: XLSX }) : file;
}

import { cellValues } from "../../../viewer/present/csv.ts";
import { labelText } from "../../../viewer/present/pictures/label.ts";
import { textOfCell, type Cell as Presented, type Table } from "../../../viewer/present/tables/table.ts";
import { figure, text, type Cell, type Sheet } from "./cell.ts";
import { sheetNames, xlsxBytes, type About } from "./xlsx.ts";

/** Tables in English as a workbook, a sheet each: figures at full precision where a cell has them. */
export function tablesWorkbook(
  tables: readonly (readonly [name: string, table: Table])[],
  about: About,
): Uint8Array<ArrayBuffer> {
  const names = sheetNames(tables.map(([name]) => name));
  return xlsxBytes(
    tables.map(([, table], i) => sheetOf(names[i]!, table)),
    about,
  );
}

function sheetOf(name: string, { caption, columns, rows }: Table): Sheet {
  return {
    name,
    widths: columns.map(({ head }) => Math.max(10, labelText(head).length + 2)),
    rows: [
      [text(labelText(caption), "title")],
      columns.map(({ head }) => text(labelText(head), "head")),
      ...rows.map(({ head, cells }) => [valueOf(labelText(head)), ...cells.map(cellOf)]),
    ],
  };
}

const cellOf = (cell: Presented): Cell =>
  typeof cell === "object" && typeof cell.value === "number" ? figure(cell.value) : valueOf(textOfCell(cell));

function valueOf(words: string): Cell {
  const [[value]] = cellValues([[words]]) as [[string | number]];
  return typeof value === "number" ? figure(value) : text(value);
}

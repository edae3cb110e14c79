import { InputError } from "../../engine/index.ts";
import { columnLetter, isKnownUnit, writtenRows, type BudgetSheet } from "../../models/index.ts";
import { acceptedBeside, isWorkbook, otherFile } from "../../viewer/present/file-kind.ts";
import { bytesOf, nameOf, type FileSource } from "./source.ts";
import { decode } from "./text.ts";
import { formatsOf, type SheetFormats } from "./xlsx-formats.ts";
import { MOST_UNPACKED, xlsxSheets } from "./xlsx.ts";
import { entriesOf } from "./zip.ts";

/** A budget has some dozens of rows; pictures in a workbook may weigh more than they do. */
const MOST_BYTES = 20_000_000;
/** Rows of a sheet that are read: one that holds more holds readings, and no budget below them. */
const MOST_ROWS = 2000;
const MOST_COLUMNS = 300;
/** Bytes that the kind of a file is told from. */
const BEGINNING = 4096;

/** A file's sheets as they stand, with what was noticed on the way. */
export interface OpenedSheets {
  readonly sheets: readonly BudgetSheet[];
  readonly notes: readonly string[];
}

/**
 * All tables of a small file: the sheets of a workbook, or a text as one.
 *
 * @throws {InputError} a file of another kind, which the message names with its place; one too large for a budget
 */
export async function openSheets(source: FileSource): Promise<OpenedSheets> {
  const name = nameOf(source);
  const bytes = await bytesOf(source, MOST_BYTES);
  const start = bytes.toString("latin1", 0, BEGINNING);
  const other = otherFile(start, name);
  if (other !== null)
    refuse(name, other.is, acceptedBeside("a budget as a table (CSV, XLSX or pasted cells)", other.instead));
  const opened = isWorkbook(start) || /\.xlsx$/i.test(name) ? await workbook(bytes, name) : await text(bytes, name);
  const filled = opened.sheets.filter(({ rows }) => rows.length > 0);
  for (const { name: sheet, rows } of filled) checkWidth(rows, sheet ?? name);
  if (filled.length === 0) return refuse(name, "nothing", "a table with a row of headings and a row for each input");
  const cut = filled.filter(({ rows }) => rows.length > MOST_ROWS);
  return {
    sheets: filled.map((sheet) => ({ ...sheet, rows: sheet.rows.slice(0, MOST_ROWS) })),
    notes: [
      ...opened.notes,
      ...cut.map(
        ({ name: sheet, rows }) =>
          `of the ${rows.length} rows of ${sheet ?? name} the first ${MOST_ROWS} were read: a log of readings belongs to a survey or to a comparison`,
      ),
    ],
  };
}

/** The value is in words, which would not be quoted. */
function refuse(place: string, value: string, accepted: string): never {
  throw new InputError([{ place, value, accepted }]);
}

async function workbook(bytes: Buffer, name: string): Promise<OpenedSheets> {
  const { sheets, withoutValue } = await xlsxSheets(bytes, name);
  const notes =
    withoutValue === 0
      ? []
      : [
          `${withoutValue === 1 ? "one cell has" : `${withoutValue} cells have`} a formula without its value, and count as empty: open the file in a spreadsheet program and save it`,
        ];
  return { sheets: asShown(sheets, formatsOf(entriesOf(bytes) ?? [], MOST_UNPACKED)), notes };
}

/** Numbers as their cells show them, where the format of the cell adds a unit or makes them percentages. */
function asShown(sheets: readonly BudgetSheet[], formats: SheetFormats): readonly BudgetSheet[] {
  if (formats.every((bySheet) => bySheet.size === 0)) return sheets;
  const texts = sheets.flatMap(({ rows }) =>
    rows.flatMap(({ cells }) => cells.filter((cell) => typeof cell === "string")),
  );
  const comma = texts.some((cell) => /\d,\d/.test(cell)) && !texts.some((cell) => /\d\.\d/.test(cell));
  return sheets.map(({ name, rows }, i) => ({
    name,
    rows: rows.map(({ row, cells }) => ({
      row,
      cells: cells.map((cell, column) => {
        const format = typeof cell === "number" ? formats[i]?.get(`${columnLetter(column)}${row}`) : undefined;
        if (format === undefined || !isKnownUnit(format.unit)) return cell;
        const figure = String(Number(((cell as number) * format.times).toPrecision(15)));
        return `${comma ? figure.replace(".", ",") : figure} ${format.unit}`;
      }),
    })),
  }));
}

async function text(bytes: Buffer, name: string): Promise<OpenedSheets> {
  const { text: pieces, notes } = decode(one(bytes), name);
  let whole = "";
  for await (const piece of pieces) whole += piece;
  return { sheets: [{ name: null, rows: writtenRows(whole, name) }], notes };
}

async function* one(bytes: Buffer): AsyncGenerator<Uint8Array> {
  yield bytes;
}

function checkWidth(rows: BudgetSheet["rows"], name: string): void {
  const wide = rows.find(({ cells }) => cells.length > MOST_COLUMNS);
  if (wide !== undefined) refuse(`${name}, row ${wide.row}`, `${wide.cells.length} columns`, `at most ${MOST_COLUMNS}`);
}

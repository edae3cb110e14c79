import readXlsx from "read-excel-file/node";
import { InputError, refuse, show } from "../../engine/index.ts";
import type { Cell, TableRow } from "../../models/index.ts";
import { entriesOf, unpack } from "./zip.ts";

/** Largest spreadsheet that is opened, packed and unpacked: the whole of it has to be held. */
const MOST_PACKED = 50_000_000;
export const MOST_UNPACKED = 200_000_000;
/** Largest sheet. The reader fills in every empty cell up to the last one, so a single far cell costs a whole sheet. */
const MOST_ROWS = 250_000;
const MOST_COLUMNS = 500;
const MOST_CELLS = 5_000_000;

export const MOST_SPREADSHEET_BYTES = MOST_PACKED;

/**
 * Rows of one sheet of an XLSX file. Dates become text such as 2026-03-02T08:15:00.000.
 *
 * @param sheet name of the sheet; needed if the file has several
 * @throws {InputError} no spreadsheet, several sheets and none named, or one that would unpack beyond measure
 */
export async function xlsxRows(bytes: Buffer, name: string, sheet: string | undefined): Promise<readonly TableRow[]> {
  const { sheets } = await xlsxSheets(bytes, name);
  const names = sheets.map(({ name: title }) => title);
  if (sheet === undefined && sheets.length > 1) {
    refuse(
      `${name}, sheet`,
      `${sheets.length} sheets: ${names.map(show).join(", ")}`,
      "the name of one of them, as log.sheet of the description or an option",
    );
  }
  const chosen = sheet === undefined ? sheets[0] : sheets.find(({ name: title }) => title === sheet);
  return chosen === undefined ? refuse(`${name}, sheet`, sheet, `one of ${names.map(show).join(", ")}`) : chosen.rows;
}

/** A workbook's sheets, and how many of its formulas have no value that was computed when it was saved. */
export interface Workbook {
  readonly sheets: readonly { readonly name: string; readonly rows: readonly TableRow[] }[];
  readonly withoutValue: number;
}

/** All sheets of an XLSX file. @throws {InputError} no spreadsheet, or one that would unpack beyond measure */
export async function xlsxSheets(bytes: Buffer, name: string): Promise<Workbook> {
  const withoutValue = checkBounds(bytes, name);
  const sheets = await open(bytes, name);
  return {
    sheets: sheets.map(({ sheet, data }) => ({
      name: sheet,
      rows: data.map((cells, i) => ({ row: i + 1, cells: cells.map(plainCell) })),
    })),
    withoutValue,
  };
}

async function open(bytes: Buffer, name: string) {
  try {
    return await readXlsx(bytes);
  } catch (error) {
    if (error instanceof InputError) throw error;
    return refuse(name, error instanceof Error ? error.message : error, "an XLSX file that is whole");
  }
}

function plainCell(cell: unknown): Cell {
  if (cell instanceof Date) {
    // A spreadsheet keeps times as fractions of a day: whole seconds come back a millisecond off.
    const second = Math.round(cell.getTime() / 1000) * 1000;
    const moment = Math.abs(cell.getTime() - second) <= 2 ? new Date(second) : cell;
    return moment.toISOString().replace("Z", "");
  }
  if (typeof cell === "string" || typeof cell === "number" || typeof cell === "boolean") return cell;
  return null;
}

/**
 * Refuses a file that would unpack, or whose sheets would fill, beyond measure. Sizes are those found by unpacking within
 * a bound, never those that the file states of itself (APPNOTE 6.3.9, 4.3.7, 4.3.12, 4.3.16; ECMA-376-1, 18.3.1.4).
 */
function checkBounds(bytes: Buffer, name: string): number {
  let left = MOST_UNPACKED;
  let withoutValue = 0;
  const entries = entriesOf(bytes);
  if (entries === null) return refuse(name, "no packed spreadsheet", "an XLSX file that is whole");
  for (const entry of entries) {
    const content = unpack(entry, left);
    if (content === "too large")
      return refuse(name, `more than ${MOST_UNPACKED} bytes unpacked`, "fewer: save large logs as CSV");
    if (content === "damaged" || content.length !== entry.stated)
      return refuse(`${name}, ${entry.path}`, "damaged data", "an XLSX file that is whole");
    left -= content.length;
    // A sheet may lie at any path: what makes it one is its data.
    if (!content.includes("sheetData")) continue;
    const xml = content.toString("latin1");
    checkSheet(xml, name);
    withoutValue += formulasWithoutValue(xml);
  }
  return withoutValue;
}

/** Cells with a formula and no value: written by a program that computes nothing (ECMA-376-1, 18.3.1.40 and 18.3.1.96). */
function formulasWithoutValue(xml: string): number {
  let without = 0;
  let pending = false;
  for (const [, tag] of xml.matchAll(/<(?:\w+:)?(c|f|v|is)(?=[\s/>])/g)) {
    if (tag === "c") {
      if (pending) without++;
      pending = false;
    } else pending = tag === "f";
  }
  return without + (pending ? 1 : 0);
}

function checkSheet(xml: string, name: string): void {
  let rows = 0;
  let columns = 0;
  let cells = 0;
  for (const [, tag, attributes] of xml.matchAll(/<(?:\w+:)?(row|c)(?=[\s/>])((?:"[^"]*"|'[^']*'|[^<>"'])*)/g)) {
    const place = /\sr\s*=\s*["']([A-Z]{0,9})(\d{0,9})["']/i.exec(attributes!);
    if (place === null && /\sr\s*=/.test(attributes!))
      return refuse(`${name}, sheet`, attributes!.trim(), "cells with a reference such as B7");
    if (tag === "row") rows = Math.max(rows + 1, Number(place?.[2] ?? 0));
    else {
      cells++;
      rows = Math.max(rows, Number(place?.[2] ?? 0));
      columns = Math.max(columns, columnNumber(place?.[1] ?? ""));
    }
    if (rows > MOST_ROWS) return tooLarge(name, `a row ${rows}`);
    if (columns > MOST_COLUMNS) return tooLarge(name, `a column ${place![1]}`);
    if (cells > MOST_CELLS || rows * columns > MOST_CELLS) return tooLarge(name, `${rows} rows of ${columns} columns`);
  }
}

const tooLarge = (name: string, found: string): never =>
  refuse(
    `${name}, sheet`,
    found,
    `at most ${MOST_ROWS} rows, ${MOST_COLUMNS} columns and ${MOST_CELLS} cells: delete stray cells, or save the log as CSV`,
  );

/** A is 1, Z is 26, AA is 27. */
const columnNumber = (letters: string): number =>
  Array.from(letters.toUpperCase()).reduce((number, letter) => 26 * number + letter.codePointAt(0)! - 64, 0);

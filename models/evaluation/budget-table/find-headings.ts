import type { TableRow } from "../table/table.ts";
import { isBlank, looksLikeFigure, textOf } from "./cells.ts";
import type { BudgetField } from "./fields.ts";
import { mapHeadings, meaningOfHeading } from "./headings.ts";
import { headingTexts } from "./mapped-table.ts";
import { isKnownUnit } from "./unit-scale.ts";

/** Rows that head the columns of one table. */
export interface FoundHeadings {
  readonly rows: readonly number[];
  /** The row of units right below them; `null` for none. */
  readonly units: number | null;
  /** How many fields they name. */
  readonly fields: number;
}

/** Headings stand among the first rows of a sheet; further tables may follow below. */
const FIRST_ROWS = 400;
const MOST_HEADING_ROWS = 3;

/** How many more cells of a file are looked at for headings: no file takes long, whatever it holds. */
export interface HeadingCells {
  cells: number;
}

export const headingCells = (): HeadingCells => ({ cells: 5000 });

/** All rows of headings in a sheet, from the top. */
export function findHeadings(rows: readonly TableRow[], left: HeadingCells = headingCells()): readonly FoundHeadings[] {
  const found: FoundHeadings[] = [];
  const first = rows.filter(({ cells }) => cells.some((cell) => textOf(cell) !== "")).slice(0, FIRST_ROWS);
  for (let i = 0; i < first.length; i++) {
    if (isRowOfText(first[i]!)) left.cells -= first[i]!.cells.length;
    if (left.cells < 0) break;
    const best = bestAt(first, i);
    if (best === null) continue;
    const { count, fields } = best;
    const below = first[i + count];
    const units = below !== undefined && isRowOfUnits(below) ? below.row : null;
    found.push({ rows: first.slice(i, i + count).map(({ row }) => row), units, fields });
    i += count - 1;
  }
  return found;
}

/** Headings from this row down, over as many rows as name more fields. */
function bestAt(rows: readonly TableRow[], at: number): { readonly count: number; readonly fields: number } | null {
  let best: { readonly count: number; readonly fields: number } | null = null;
  for (let count = 1; count <= MOST_HEADING_ROWS && at + count <= rows.length; count++) {
    const heads = rows.slice(at, at + count);
    const last = heads.at(-1)!;
    if (!isRowOfText(last) || (count > 1 && (last.row !== heads.at(-2)!.row + 1 || isRowOfUnits(last)))) break;
    // A title above the headings is one cell, and no part of them.
    if (count > 1 && heads.slice(0, -1).some((head) => filled(head) < 2)) break;
    const fields = fieldsOf(heads);
    // Titles of tables side by side head nothing: the headings are below them.
    if (count > 1 && namesNothing(heads[0]!) && fields === fieldsOf(heads.slice(1))) break;
    if (fields !== null && (best === null || fields > best.fields)) best = { count, fields };
  }
  return best;
}

const namesNothing = ({ cells }: TableRow): boolean =>
  cells.every((cell) => textOf(cell) === "" || meaningOfHeading(textOf(cell)) === null);

const filled = ({ cells }: TableRow): number => cells.filter((cell) => textOf(cell) !== "").length;

/** A row of words, as headings are. */
export const isRowOfText = (row: TableRow): boolean =>
  filled(row) >= 2 &&
  !row.cells.some((cell) => typeof cell === "number" || (looksLikeFigure(cell) && !/[k%]/.test(textOf(cell))));

/** How many fields rows name as headings; `null` if they head no budget. */
function fieldsOf(heads: readonly TableRow[]): number | null {
  const columns = mapHeadings(
    headingTexts(
      heads,
      heads.map(({ row }) => row),
    ),
  );
  const fields = new Set<BudgetField>(columns.flatMap(({ field }) => field ?? []));
  const uncertain = fields.has("stated") || fields.has("standard") || (fields.has("lower") && fields.has("upper"));
  const more = (["estimate", "distribution", "divisor", "sensitivity", "unit"] as const).some((field) =>
    fields.has(field),
  );
  const names = fields.has("quantity") || fields.has("symbol");
  if (fields.size < 2) return null;
  if (uncertain && (names || more)) return fields.size;
  if (fields.has("contribution") && names) return fields.size;
  // The column of the uncertainties may be headed in other words: it is asked for.
  return names && fields.size >= 3 && (fields.has("distribution") || fields.has("divisor")) ? fields.size - 1 : null;
}

/** A row below the headings with nothing but units. */
export function isRowOfUnits(row: TableRow): boolean {
  const texts = row.cells.filter((cell) => !isBlank(cell)).map(textOf);
  return (
    texts.length > 0 &&
    // A quantity called A is no ampere: names stand in the first column, and units do not.
    (isBlank(row.cells[0]) || /^[([]/.test(textOf(row.cells[0]))) &&
    texts.every((text) => isKnownUnit(text.replace(/^[([](.*)[)\]]$/, "$1").replace(/^in /i, ""))) &&
    row.cells.every((cell) => typeof cell !== "number")
  );
}

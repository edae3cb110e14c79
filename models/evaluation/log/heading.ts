import { InputError, refuse } from "../../../engine/index.ts";
import type { Cell, TableRow } from "../table/table.ts";
import { readUnit } from "../text/units.ts";
import { letterOf, logColumns, type ColumnRequest, type LogColumns } from "./columns.ts";
import { secondsIn } from "./figures.ts";

/** Rows among which the heading is sought: instruments write some dozens of lines about themselves. */
export const HEAD_ROWS = 300;

export const cellText = (cell: Cell | undefined): string =>
  cell === null || cell === undefined ? "" : String(cell).trim();

export const isBlank = (cells: readonly Cell[]): boolean => cells.every((cell) => cellText(cell) === "");

/** Where a log begins. */
export interface FoundHeading {
  readonly columns: LogColumns;
  /** Index of the first row below the headings and their units. */
  readonly below: number;
  /** Rows above the headings that have content. */
  readonly above: number;
}

/**
 * Finds the row of headings that has what is asked for: an instrument's own lines may stand above it, and units in a row
 * below it.
 *
 * @param row its number in the file if it is stated; 0 if there is none and columns go by their letters
 * @throws {InputError} no row that has it, with what is missing in the row that looks most like headings
 */
export function findHeading(
  head: readonly TableRow[],
  request: ColumnRequest,
  row: number | undefined,
  file: string,
): FoundHeading {
  if (row === 0) {
    const width = Math.max(0, ...head.map(({ cells }) => cells.length));
    const cells = Array.from({ length: width }, (_, i) => letterOf(i));
    return { columns: logColumns({ row: 0, cells }, request, file), below: 0, above: 0 };
  }
  const candidates = head.flatMap(({ cells }, index) =>
    cells.filter((cell) => cellText(cell) !== "").length > 1 ? [index] : [],
  );
  if (row !== undefined) {
    const index = head.findIndex((candidate) => candidate.row === row);
    if (index < 0)
      return refuse("log.headingRow", row, `a row with content among the first ${HEAD_ROWS}, or 0 for no headings`);
    return withUnits(head, index, request, file);
  }
  if (candidates.length === 0) return refuse(file, "no row of headings", "a row of headings and rows below it");
  for (const index of candidates) {
    try {
      return withUnits(head, index, request, file);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
  }
  return withUnits(head, mostLikeHeadings(head, candidates), request, file);
}

/** The row with the most words in it, the first of several. */
export function mostLikeHeadings(head: readonly TableRow[], candidates: readonly number[]): number {
  const words = (index: number): number =>
    head[index]!.cells.filter((cell) => typeof cell === "string" && /\p{L}/u.test(cell)).length;
  return candidates.reduce((best, index) => (words(index) > words(best) ? index : best));
}

function withUnits(head: readonly TableRow[], index: number, request: ColumnRequest, file: string): FoundHeading {
  const row = head[index]!;
  const above = head.slice(0, index).filter(({ cells }) => !isBlank(cells)).length;
  const next = head[index + 1];
  if (next === undefined || !isUnits(next.cells))
    return { columns: logColumns(row, request, file), below: index + 1, above };
  return {
    columns: logColumns({ row: row.row, cells: headingsWithUnits(row.cells, next.cells) }, request, file),
    below: index + 2,
    above,
  };
}

/** Whether a row has units alone, as some loggers write them below the headings. */
export function isUnits(cells: readonly Cell[]): boolean {
  const texts = cells.map(cellText).filter((text) => text !== "");
  return (
    texts.some((text) => readUnit(bare(text)) !== null) &&
    texts.every((text) => readUnit(bare(text)) !== null || secondsIn(bare(text)) !== null || /^[^\d]{0,20}$/.test(text))
  );
}

/** Headings with the units of the row below them. */
export const headingsWithUnits = (headings: readonly Cell[], units: readonly Cell[]): readonly string[] =>
  headings.map((heading, i) => {
    const unit = bare(cellText(units[i]));
    return readUnit(unit) === null && secondsIn(unit) === null ? cellText(heading) : `${cellText(heading)} / ${unit}`;
  });

/** A unit without the brackets that some write about it. */
const bare = (text: string): string => text.replace(/^[([]\s*/, "").replace(/\s*[)\]]$/, "");

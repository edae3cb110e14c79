import { tsvFormatRows, tsvParseRows } from "d3";
import { columnFromHeading, columnOf, COLUMNS, isHowWord, type Column, type ColumnName } from "./columns.ts";
import type { Kind } from "./fields.ts";
import { howOf } from "./hows.ts";
import { BLANK_ROW, furtherFields, isEmptyRow, newKey, type Row } from "./row.ts";
import { isFilled, readNumber } from "./typed.ts";

/** Heading of a column for a field that the table shows in the row below: its name in the study. */
const FURTHER = "further: ";

/** Columns of figures that may have a unit. */
const FIGURES: ReadonlySet<ColumnName> = new Set(["value", "first", "second"]);

/** Rows as a spreadsheet takes them: a heading, and a line a row, parted by tabs. */
export function copiedText(rows: readonly Row[], columns: readonly Column[], kinds: readonly Kind[]): string {
  const further = [
    ...new Set(
      rows.flatMap((row) => {
        const how = howOf(row.how);
        return how === undefined
          ? []
          : furtherFields(how, kinds).flatMap(({ name }) => (isFilled(row.fields[name]) ? [name] : []));
      }),
    ),
  ];
  return tsvFormatRows([
    [...columns.map(({ title }) => title), ...further.map((name) => `${FURTHER}${name}`)],
    ...rows.map((row) => [
      ...columns.map((column) => column.copy(row)),
      ...further.map((name) => row.fields[name] ?? ""),
    ]),
  ]);
}

/** What a pasted text did to the table. */
export interface Pasted {
  readonly rows: readonly Row[];
  /** Rows that got a figure or a word. */
  readonly count: number;
  /** Headings that mean no column. */
  readonly unknown: readonly string[];
  /** Lines that found no row, in a table whose rows the model fixes. */
  readonly lost: number;
  /** Words that say how a quantity is known, and are not understood. */
  readonly unread: readonly string[];
}

/** A column of the pasted text: one of the table's, a field of the row below, or none. */
type Target = { readonly column: Column; readonly unit: string } | { readonly field: string } | null;

/**
 * Puts the cells of a spreadsheet into the rows, from a cell on, or under their headings if the first line has any. How a
 * quantity is known is read first, since it says what the figures beside it are.
 *
 * @param mayAdd whether rows are added for lines beyond the last row; otherwise the model fixes the rows, and lines that
 *   name a symbol or a quantity go to its row
 */
export function withPasted(
  rows: readonly Row[],
  text: string,
  from: { readonly row: number; readonly column: ColumnName },
  columns: readonly Column[],
  mayAdd: boolean,
): Pasted {
  const lines = tsvParseRows(text.replaceAll("\r\n", "\n").replaceAll("\r", "\n").replace(/\n+$/, ""));
  const headed = headingsOf(lines[0] ?? [], columns);
  const start = columns.findIndex(({ name }) => name === from.column);
  const targets: readonly Target[] = headed ?? columns.slice(start).map((column) => ({ column, unit: "" }));
  const body = (headed === null ? lines : lines.slice(1)).filter((cells) => cells.some((cell) => cell.trim() !== ""));
  const next = [...rows];
  const unread: string[] = [];
  let [count, lost] = [0, 0];
  for (const [i, cells] of body.entries()) {
    let at = mayAdd ? from.row + i : fixedRow(rows, targets, cells, headed === null ? from.row + i : -1);
    if (at < 0 || (at >= next.length && !mayAdd)) {
      lost += 1;
      continue;
    }
    if (at >= next.length) {
      at = next.length;
      next.push({ ...BLANK_ROW, key: newKey(next) });
    }
    next[at] = withCells(next[at]!, targets, cells, mayAdd, unread);
    count += 1;
  }
  const last = next.at(-1);
  // A row that was there to be typed into, and that the pasted rows did not need.
  if (mayAdd && next.length > 1 && last !== undefined && isEmptyRow(last)) next.pop();
  return { rows: next, count, lost, unread, unknown: unknownOf(lines[0] ?? [], headed) };
}

const unknownOf = (first: readonly string[], headed: readonly Target[] | null): string[] =>
  headed === null ? [] : first.filter((heading, i) => headed[i] === null && heading.trim() !== "");

/** What each column of the text is, if its first line has two headings or more that the table knows. */
function headingsOf(first: readonly string[], columns: readonly Column[]): Target[] | null {
  const targets = first.map((heading): Target => {
    if (heading.startsWith(FURTHER)) return { field: heading.slice(FURTHER.length) };
    const found = columnFromHeading(heading);
    return found !== null && columns.some(({ name }) => name === found.column)
      ? { column: columnOf(found.column), unit: found.unit }
      : null;
  });
  return targets.filter((target) => target !== null).length >= 2 ? targets : null;
}

function fixedRow(
  rows: readonly Row[],
  targets: readonly Target[],
  cells: readonly string[],
  otherwise: number,
): number {
  for (const name of ["symbol", "meaning"] as const) {
    const i = targets.findIndex((target) => target !== null && "column" in target && target.column.name === name);
    const wanted = i < 0 ? "" : (cells[i] ?? "").trim();
    const found = wanted === "" ? -1 : rows.findIndex((row) => row[name].trim() === wanted);
    if (found >= 0) return found;
  }
  return otherwise;
}

function withCells(
  row: Row,
  targets: readonly Target[],
  cells: readonly string[],
  mayAdd: boolean,
  unread: string[],
): Row {
  let next = row;
  const put = (wanted: (name: ColumnName) => boolean): void => {
    for (const [i, target] of targets.entries()) {
      const cell = cells[i];
      if (cell === undefined || target === null || !("column" in target) || !wanted(target.column.name)) continue;
      // A table whose rows the model fixes takes no symbols and no names.
      if (!mayAdd && ["symbol", "meaning", "ofTemperature"].includes(target.column.name)) continue;
      if (target.column.name === "how" && cell.trim() !== "" && !isHowWord(cell)) unread.push(cell.trim());
      // The unit of a heading is that of each figure below it.
      const bare = target.unit !== "" && FIGURES.has(target.column.name) && readNumber(cell) !== null;
      next = target.column.paste(next, bare ? `${cell.trim()} ${target.unit}` : cell.trim());
    }
  };
  put((name) => name === "unit");
  put((name) => name === "how");
  put((name) => name !== "unit" && name !== "how");
  const further = targets.flatMap((target, i) =>
    target !== null && "field" in target && isFilled(cells[i]) ? [[target.field, cells[i]] as const] : [],
  );
  return further.length === 0 ? next : { ...next, fields: { ...next.fields, ...Object.fromEntries(further) } };
}

/** The columns a table has: those of its rows, and the coefficient of a sum. */
export const columnsFor = (declared: "additive" | "equation" | null): readonly Column[] =>
  COLUMNS.filter(
    ({ name }) =>
      (name !== "sensitivity" || declared === "additive") && (name !== "ofTemperature" || declared !== null),
  );

import type { TableRow } from "../table/table.ts";
import type { DecimalMark } from "../text/decimal.ts";
import { agreesAsPrinted, divisorOf, isBlank, textOf } from "./cells.ts";
import { FIGURE_FIELDS } from "./fields.ts";
import { markIn, readFigure } from "./figures.ts";
import type { MappedTable } from "./mapped-table.ts";
import type { BudgetMapping, MappingQuestion } from "./mapping.ts";
import { namesMultiplier } from "./vocabulary/index.ts";

interface Proposed<V> {
  readonly value: V;
  readonly questions: readonly MappingQuestion[];
}

/** The decimal sign by the figures that are written as text; those with both readings decide nothing. */
export function proposeDecimal(
  table: MappedTable,
  rows: readonly TableRow[],
  sums: readonly TableRow[],
  stated: DecimalMark | undefined,
): Proposed<DecimalMark> {
  if (stated !== undefined) return { value: stated, questions: [] };
  const seen = marksSeen(table, rows);
  if (seen.size === 0) {
    // Nothing is computed from sums: what they leave open is not asked.
    const [comma, point] = [",", "."].map((mark) => marksSeen(table, sums).has(mark as DecimalMark));
    return { value: comma === true && point === false ? "," : ".", questions: [] };
  }
  const [comma, point, either] = [seen.get(","), seen.get("."), seen.get("either")];
  if ((comma === undefined) !== (point === undefined)) return { value: comma === undefined ? "." : ",", questions: [] };
  if (comma === undefined && either === undefined) return { value: ".", questions: [] };
  if (comma === undefined && point === undefined) {
    const known = /^[1-3]([.,])(?:732|414|449|464|645|960|576)$/.exec(seenDivisor(table, rows))?.[1];
    if (known !== undefined) return { value: known as DecimalMark, questions: [] };
  }
  const shown = comma === undefined ? [either!] : [comma, point!];
  return {
    value: ".",
    questions: [
      {
        id: "decimal",
        question: "Which is the decimal sign of this table?",
        because:
          comma === undefined
            ? `“${either!.text}” in row ${either!.row}, column ${either!.column} can be read in two ways.`
            : `“${comma.text}” in row ${comma.row} has a comma, “${point!.text}” in row ${point!.row} a point.`,
        rows: shown.map(({ row }) => row),
        columns: [...new Set(shown.map(({ column }) => column))],
        answers: [
          { answer: "A comma: 1,5 is one and a half", states: { decimal: "," } },
          { answer: "A point: 1.5 is one and a half", states: { decimal: "." } },
        ],
      },
    ],
  };
}

/** A root, or a coverage factor, with three places: it is no thousand and some. */
const seenDivisor = (table: MappedTable, rows: readonly TableRow[]): string =>
  rows
    .map((row) => table.text(row, "divisor"))
    .find((text) => /^[1-3][.,](?:732|414|449|464|645|960|576)$/.test(text)) ?? "";

interface Seen {
  readonly text: string;
  readonly row: number;
  readonly column: string;
}

/** The first figure with each decimal sign, and the first that can be read with both. */
function marksSeen(table: MappedTable, rows: readonly TableRow[]): ReadonlyMap<DecimalMark | "either", Seen> {
  const seen = new Map<DecimalMark | "either", Seen>();
  for (const { row, cells } of rows)
    for (const { letter, index, field } of table.columns) {
      const cell = cells[index];
      if (typeof cell !== "string" || !(FIGURE_FIELDS.has(field) || field === "divisor")) continue;
      const mark = markIn(cell);
      if (mark !== null && !seen.has(mark)) seen.set(mark, { text: textOf(cell), row, column: letter });
    }
  return seen;
}

/** Whether factors divide or multiply: figures below 1 can only multiply if the standard uncertainties beside them agree. */
export function proposeDivisors(
  table: MappedTable,
  rows: readonly TableRow[],
  stated: BudgetMapping["divisors"] | undefined,
): Proposed<BudgetMapping["divisors"]> {
  if (stated !== undefined) return { value: stated, questions: [] };
  const column = table.columnsOf("divisor")[0];
  if (column === undefined) return { value: "divide", questions: [] };
  const found = rows.flatMap((row) => {
    const factor = isBlank(row.cells[column.index]) ? null : factorOf(table, row);
    return factor === null ? [] : [{ row, factor }];
  });
  const below = found.filter(({ factor }) => factor < 1);
  if (below.length === 0) return { value: "divide", questions: [] };
  const fits = (multiply: boolean): number =>
    below.filter(({ row, factor }) => {
      const [figure, own] = (["stated", "standard"] as const).map((field) =>
        table.has(row, field) ? (readFigure(table.text(row, field), table.decimal)?.value ?? null) : null,
      );
      return figure != null && own != null && agreesAsPrinted(own, multiply ? figure * factor : figure / factor);
    }).length;
  if (fits(true) > below.length / 2) return { value: "multiply", questions: [] };
  if (fits(false) > below.length / 2) return { value: "divide", questions: [] };
  if (namesMultiplier(column.heading) && found.every(({ factor }) => factor <= 1))
    return { value: "multiply", questions: [] };
  return {
    value: "divide",
    questions: [
      {
        id: `divisors ${column.letter}`,
        question: `Are uncertainties divided by the figures in column ${column.letter} (${column.heading}), or multiplied with them?`,
        because: `Some are less than 1: “${textOf(below[0]!.row.cells[column.index])}” in row ${below[0]!.row.row}.`,
        rows: below.map(({ row }) => row.row),
        columns: [column.letter],
        answers: [
          { answer: "Multiplied: 0.58 stands for 1/√3", states: { divisors: "multiply" } },
          { answer: "Divided", states: { divisors: "divide" } },
        ],
      },
    ],
  };
}

function factorOf(table: MappedTable, row: TableRow): number | null {
  try {
    return divisorOf(table.cell(row, "divisor"), "", table.decimal);
  } catch {
    // What is no divisor is told when its row is read.
    return null;
  }
}

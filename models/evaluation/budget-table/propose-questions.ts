import { columnLetter, type TableRow } from "../table/table.ts";
import { agreesAsPrinted, looksLikeFigure, textOf } from "./cells.ts";
import type { RowGuess } from "./classify-rows.ts";
import type { FoundHeadings } from "./find-headings.ts";
import { readFigure } from "./figures.ts";
import type { MappedColumn, MappedTable } from "./mapped-table.ts";
import type { MappingQuestion } from "./mapping.ts";
import type { BudgetSheet } from "./sheet.ts";

const MOST_CHOICES = 8;
const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}…` : text);

/** What a row says, for a person to recognise it. */
const words = ({ cells }: TableRow): string =>
  shortened(
    cells
      .map(textOf)
      .filter((text) => text !== "")
      .join(" | "),
  );

export const sheetQuestion = (sheets: readonly BudgetSheet[], several: boolean): MappingQuestion => ({
  id: "sheet",
  question: "Which sheet holds the budget?",
  because: several
    ? "More than one has the headings of a budget."
    : "None has headings that are known as those of a budget.",
  rows: [],
  columns: [],
  answers: sheets.slice(0, 30).map(({ name }) => ({ answer: name ?? "the only one", states: { sheet: name } })),
});

export function tableQuestion(tables: readonly FoundHeadings[], rows: readonly TableRow[]): MappingQuestion {
  const titleAbove = (first: number): string => {
    const above = rows.findLast(({ row, cells }) => row < first && cells.some((cell) => textOf(cell) !== ""));
    return above === undefined || above.cells.filter((cell) => textOf(cell) !== "").length > 2
      ? ""
      : `: ${words(above)}`;
  };
  return {
    id: "table",
    question: "Which of the tables of this sheet is the budget?",
    because: `Headings of a budget stand in rows ${tables.map(({ rows: own }) => own[0]!).join(", ")}.`,
    rows: tables.flatMap(({ rows: own }) => own),
    columns: [],
    answers: tables.slice(0, MOST_CHOICES).map(({ rows: headings }) => ({
      answer: `The one headed by row ${headings[0]!}${titleAbove(headings[0]!)}`,
      states: { headings },
    })),
  };
}

const MOMENT = /^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}\b.*|\d{1,2}:\d{2}(?::\d{2}.*)?)$/;

/** Rows that begin with a time, as those of a log do. */
const timed = (rows: readonly TableRow[]): number =>
  rows.filter(({ cells }) => cells.slice(0, 2).some((cell) => MOMENT.test(textOf(cell)))).length;

export function headingQuestion(rows: readonly TableRow[]): MappingQuestion {
  const moments = timed(rows);
  const candidates = rows
    .slice(0, 60)
    .filter(({ cells }) => cells.filter((cell) => textOf(cell) !== "" && !looksLikeFigure(cell)).length >= 2)
    .slice(0, MOST_CHOICES);
  return {
    id: "headings",
    question: "Which row heads the columns of the budget?",
    because:
      moments >= 3 && moments > rows.length / 2
        ? `This looks like a log of readings over time (${moments} rows begin with a time): it belongs to the survey of a bath or to a comparison, not to a budget.`
        : "No row names a quantity and its uncertainty in words that are known, such as: quantity, estimate, uncertainty, distribution, divisor, sensitivity coefficient, degrees of freedom.",
    rows: candidates.map(({ row }) => row),
    columns: [],
    answers: [
      ...candidates.map((row) => ({ answer: `Row ${row.row}: ${words(row)}`, states: { headings: [row.row] } })),
      { answer: "There are no headings", states: { headings: [] } },
    ],
  };
}

/** The first column has what should head columns: the inputs may stand side by side. */
export const turnedQuestion = (rows: readonly TableRow[]): MappingQuestion => ({
  id: "headings",
  question: "Do the inputs stand in columns, one beside the other?",
  because: `The first column has the words that usually head columns: ${rows
    .map(({ cells }) => textOf(cells[0]))
    .filter((text) => text !== "")
    .slice(0, 6)
    .join(", ")}.`,
  rows: [],
  columns: ["A"],
  answers: [
    { answer: "Yes: read each column as an input", states: { turned: true } },
    { answer: "No: the inputs stand in rows", states: { turned: false } },
  ],
});

export const rowQuestion = ({ row, label }: RowGuess): MappingQuestion => ({
  id: `row ${row}`,
  question: `Is row ${row} (${label}) an input, or does it sum up the rows above it?`,
  because: "It has a figure and none of what the other rows have beside theirs.",
  rows: [row],
  columns: [],
  answers: [
    { answer: "An input", states: { rows: { [String(row)]: { is: "input" } } } },
    { answer: "A total", states: { rows: { [String(row)]: { is: "total" } } } },
    { answer: "Leave it out", states: { rows: { [String(row)]: { is: "left-out" } } } },
  ],
});

const named = ({ letter, heading }: { readonly letter: string; readonly heading: string }): string =>
  `column ${letter}${heading === "" ? "" : ` (${heading})`}`;

/** Asks for the column of the uncertainties, where no heading names one. */
export function missingUncertainty(
  table: MappedTable,
  rows: readonly TableRow[],
  headings: readonly string[],
): readonly MappingQuestion[] {
  if ((["stated", "standard", "lower"] as const).some((field) => table.columnsOf(field).length > 0)) return [];
  // A "value" may be the uncertainty's.
  const used = new Set(table.columns.flatMap(({ index, field }) => (field === "estimate" ? [] : [index])));
  const candidates = headings.flatMap((heading, index) => {
    const figures = rows.filter(({ cells }) => looksLikeFigure(cells[index])).length;
    return used.has(index) || figures === 0 ? [] : [{ letter: columnLetter(index), heading }];
  });
  return [
    {
      id: "uncertainty",
      question: "Which column holds the uncertainties?",
      because: "No heading names an uncertainty in words that are known.",
      rows: [],
      columns: candidates.map(({ letter }) => letter),
      answers: candidates.slice(0, 20).map((column) => ({
        answer: named(column).replace("column", "Column"),
        states: { columns: { [column.letter]: { field: "stated" } } },
      })),
    },
  ];
}

/** Two columns that could both be the uncertainty, filled in in the same rows: asked about by name. */
export function rivalUncertainties(
  table: MappedTable,
  rows: readonly TableRow[],
  settled: ReadonlySet<string>,
): readonly MappingQuestion[] {
  for (const field of ["stated", "standard"] as const) {
    const rivals = table.columnsOf(field);
    const both = rows.filter((row) => rivals.filter(({ index }) => looksLikeFigure(row.cells[index])).length > 1);
    const inBoth = rivals.filter(({ index }) => both.some((row) => looksLikeFigure(row.cells[index])));
    if (both.length > 0 && !inBoth.every(({ letter }) => settled.has(letter)))
      return [rivalQuestion(inBoth, both, "Both have figures in the same rows.")];
  }
  const [stated, standard] = [table.columnsOf("stated")[0], table.columnsOf("standard")[0]];
  if (stated === undefined || standard === undefined || settled.has(stated.letter) || settled.has(standard.letter))
    return [];
  const pairs = rows.flatMap((row) => {
    const [figure, own] = [stated, standard].map(
      ({ index }) => readFigure(textOf(row.cells[index]), table.decimal)?.value,
    );
    return figure === undefined || own === undefined || own === 0 || stated.unit !== standard.unit
      ? []
      : [{ row, ratio: figure / own }];
  });
  const odd = pairs.filter(({ ratio }) => !DIVISORS.some((divisor) => agreesAsPrinted(divisor, ratio)));
  if (odd.length <= pairs.length / 2) return [];
  return [
    rivalQuestion(
      [stated, standard],
      odd.map(({ row }) => row),
      `They do not go together: in row ${odd[0]!.row.row} one is ${String(Number(odd[0]!.ratio.toPrecision(3)))} times the other, which is no usual divisor.`,
    ),
  ];
}

/** Divisors in use: 1, √2, √3, 2, √6, 3, 2√3, and coverage factors of a t-distribution between them. */
const DIVISORS = [
  1,
  Math.SQRT2,
  1.645,
  Math.sqrt(3),
  2,
  2.13,
  2.28,
  Math.sqrt(6),
  2.58,
  2.87,
  3,
  2 * Math.sqrt(3),
  2 * Math.sqrt(6),
];

const rivalQuestion = (
  rivals: readonly MappedColumn[],
  rows: readonly TableRow[],
  because: string,
): MappingQuestion => ({
  id: `uncertainty ${rivals.map(({ letter }) => letter).join(" ")}`,
  question: `Which is the uncertainty: ${rivals.map(named).join(" or ")}?`,
  because,
  rows: rows.slice(0, 20).map(({ row }) => row),
  columns: rivals.map(({ letter }) => letter),
  answers: rivals.map((rival) => ({
    answer: named(rival).replace("column", "Column"),
    states: {
      columns: Object.fromEntries(
        rivals.map(({ letter, field }) => [letter, { field: letter === rival.letter ? field : null }] as const),
      ),
    },
  })),
});

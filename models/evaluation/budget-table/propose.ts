import { columnLetter, type TableRow } from "../table/table.ts";
import { classifyRows } from "./classify-rows.ts";
import { findHeadings, headingCells, isRowOfText, isRowOfUnits, type FoundHeadings } from "./find-headings.ts";
import { mapHeadings, shapeOf, type HeadedColumn } from "./headings.ts";
import { corrected, headingTexts, MappedTable } from "./mapped-table.ts";
import type { BudgetMapping, MappingQuestion, RowMeaning, StatedMapping } from "./mapping.ts";
import { proposeColumns } from "./propose-columns.ts";
import { proposeDecimal, proposeDivisors } from "./propose-conventions.ts";
import {
  headingQuestion,
  missingUncertainty,
  rivalUncertainties,
  rowQuestion,
  sheetQuestion,
  tableQuestion,
  turnedQuestion,
} from "./propose-questions.ts";
import { textOf } from "./cells.ts";
import type { BudgetSheet } from "./sheet.ts";
import { besideQuestion, onlyColumns, tablesBeside } from "./side-by-side.ts";
import { asStated, turned } from "./turned.ts";

export interface MappingProposal {
  /** Complete: what the reader stated, and for the rest what the table says. */
  readonly mapping: BudgetMapping;
  /** What the table leaves open. */
  readonly questions: readonly MappingQuestion[];
  /** The sheet that the mapping is about. */
  readonly sheet: BudgetSheet;
  /** The same for tables with the same headings; empty without headings. */
  readonly shape: string;
  /** The title above the table; `null` for none. */
  readonly title: string | null;
  readonly columns: readonly HeadedColumn[];
}

/** A table in which every row is in doubt is asked about a part at a time. */
const MOST_ROW_QUESTIONS = 20;

/** Proposes how a sheet is laid out, and asks what it leaves open. Pure: the same table, the same mapping. */
export function proposeMapping(given: readonly BudgetSheet[], stated: StatedMapping = {}): MappingProposal {
  const questions: MappingQuestion[] = [];
  const sheets = asStated(given, stated.turned === true);
  const left = headingCells();
  const found = sheets.map(({ rows }) => findHeadings(rows, left));
  const sheet = chooseSheet(sheets, found, stated, questions);
  const rows = corrected(sheet.rows, stated.cells ?? {});
  const tables = stated.cells === undefined ? found[sheets.indexOf(sheet)]! : findHeadings(rows);
  const chosen = chooseHeadings(rows, tables, stated, questions);
  if (
    stated.turned === undefined &&
    stated.headings === undefined &&
    fieldsTurned(sheet.name, rows) > mostFields(tables)
  ) {
    const others = questions.filter(({ id }) => id !== "headings" && id !== "table");
    questions.splice(0, questions.length, ...others, turnedQuestion(rows));
  }
  const units = stated.units !== undefined ? stated.units : chosen.units;
  const texts = headingTexts(rows, chosen.rows);
  const width = Math.max(texts.length, ...rows.slice(0, 1000).map(({ cells }) => cells.length));
  const headings = Array.from({ length: width }, (_, i) => texts[i] ?? "");
  const open = headings.map((heading, i) => (stated.columns?.[columnLetter(i)]?.field === null ? "" : heading));
  const beside = tablesBeside(open);
  if (beside.length > 0) questions.push(besideQuestion(beside, headings, rows, chosen.rows[0]!));
  // Until it is known which of the tables it is, the first is shown, and nothing is asked about the others.
  const others = beside.length === 0 ? {} : onlyColumns(beside[0]!, width);
  const assigned = Object.fromEntries(
    Object.entries({ ...others, ...stated.columns }).flatMap(([letter, { field }]) =>
      field === undefined ? [] : [[letter, field]],
    ),
  );
  const headed = mapHeadings(headings, assigned);
  const below = rowsOf(rows, chosen.rows, units, tables);
  const unitTexts = unitsIn(rows, units);
  const columns = proposeColumns(headed, below.own, stated.columns, unitTexts);
  const draft: BudgetMapping = {
    sheet: sheet.name,
    ...(stated.turned === true ? { turned: true } : {}),
    headings: chosen.rows,
    units,
    columns,
    rows: {},
    decimal: ".",
    unit: stated.unit ?? "",
    divisors: "divide",
    cells: stated.cells ?? {},
  };
  const guesses = classifyRows(new MappedTable(draft, headings), below.own);
  const inputs = new Set(guesses.flatMap(({ row, is }) => ((stated.rows?.[row]?.is ?? is) === "input" ? [row] : [])));
  const terms = below.own.filter(({ row }) => inputs.has(row));
  const decimal = proposeDecimal(
    new MappedTable(draft, headings),
    terms,
    below.own.filter(({ row }) => !inputs.has(row)),
    stated.decimal,
  );
  const table = new MappedTable({ ...draft, decimal: decimal.value }, headings);
  const divisors = proposeDivisors(table, terms, stated.divisors);
  questions.push(...decimal.questions, ...divisors.questions);
  const settled = new Set(Object.keys(assigned));
  if (!questions.some(({ id }) => id === "headings" || id === "sheet"))
    questions.push(...missingUncertainty(table, below.own, headings), ...rivalUncertainties(table, terms, settled));
  const kinds: Record<string, RowMeaning> = {};
  let asked = 0;
  for (const { row } of below.others) kinds[row] = { is: "left-out" };
  for (const guess of guesses) {
    const own = stated.rows?.[guess.row];
    kinds[guess.row] = { is: guess.is };
    if (own?.is === undefined && guess.unsure && (asked += 1) <= MOST_ROW_QUESTIONS) questions.push(rowQuestion(guess));
  }
  for (const [row, meaning] of Object.entries(stated.rows ?? {}))
    if (kinds[row] !== undefined) kinds[row] = { ...kinds[row], ...meaning };
  // Without headings or an uncertainty nothing is known of the rows.
  const known = Object.values(columns).some(
    ({ field }) => field === "stated" || field === "standard" || field === "lower",
  );
  return {
    mapping: { ...draft, decimal: decimal.value, divisors: divisors.value, rows: known ? kinds : {} },
    questions,
    sheet,
    shape: shapeOf(headings),
    title: titleOf(rows, chosen.rows[0] ?? 1),
    columns: headed,
  };
}

const mostFields = (tables: readonly FoundHeadings[]): number => Math.max(1, ...tables.map(({ fields }) => fields));

/** How many fields the sheet's first column would name if it headed a table. */
function fieldsTurned(name: string | null, rows: readonly TableRow[]): number {
  const other = turned({ name, rows });
  return other === null ? 0 : Math.max(0, ...findHeadings(other.rows).map(({ fields }) => fields));
}

function chooseSheet(
  sheets: readonly BudgetSheet[],
  found: readonly (readonly FoundHeadings[])[],
  { sheet }: StatedMapping,
  questions: MappingQuestion[],
): BudgetSheet {
  const named = sheets.find(({ name }) => sheet !== undefined && name === sheet);
  if (named !== undefined) return named;
  const ranked = sheets
    .map((one, i) => ({ one, fields: Math.max(0, ...found[i]!.map(({ fields }) => fields)) }))
    .toSorted((a, b) => b.fields - a.fields);
  const [best, second] = ranked;
  const open = sheets.length > 1 && (best!.fields === 0 || (second !== undefined && second.fields >= best!.fields - 1));
  if (open) {
    const alike = ranked.filter(({ fields }) => fields >= best!.fields - 1).map(({ one }) => one);
    questions.push(sheetQuestion(alike, best!.fields > 0));
  }
  return best!.one;
}

function chooseHeadings(
  rows: readonly TableRow[],
  tables: readonly FoundHeadings[],
  { headings, columns }: StatedMapping,
  questions: MappingQuestion[],
): Pick<FoundHeadings, "rows" | "units"> {
  if (headings !== undefined) {
    const known = tables.find((table) => table.rows.join() === headings.join());
    if (known !== undefined) return known;
    const last = rows.findIndex(({ row }) => row === headings.at(-1));
    const below = last < 0 ? undefined : rows[last + 1];
    return { rows: headings, units: below !== undefined && isRowOfUnits(below) ? below.row : null };
  }
  const most = Math.max(0, ...tables.map(({ fields }) => fields));
  const best = tables.filter(({ fields }) => fields >= most - 1);
  if (best.length > 1) questions.push(tableQuestion(best, rows));
  const first = best.find(({ fields }) => fields === most);
  if (first !== undefined) return first;
  // Columns that the reader has stated need no headings that are known.
  const uncertain = Object.values(columns ?? {}).some(({ field }) => field === "stated" || field === "standard");
  const row = uncertain ? rows.find(isRowOfText) : undefined;
  if (!uncertain) questions.push(headingQuestion(rows));
  return { rows: row === undefined ? [] : [row.row], units: null };
}

/** Rows of the table, and those that belong to another table below it. */
function rowsOf(
  rows: readonly TableRow[],
  headings: readonly number[],
  units: number | null,
  tables: readonly FoundHeadings[],
): { readonly own: readonly TableRow[]; readonly others: readonly TableRow[] } {
  const from = Math.max(0, ...headings, units ?? 0);
  const next = tables.find((table) => table.rows[0]! > from)?.rows[0] ?? Infinity;
  const below = rows.filter(({ row }) => row > from);
  return { own: below.filter(({ row }) => row < next), others: below.filter(({ row }) => row >= next) };
}

const unitsIn = (rows: readonly TableRow[], units: number | null): readonly string[] =>
  (rows.find(({ row }) => row === units)?.cells ?? []).map((cell) => textOf(cell).replace(/^[([](.*)[)\]]$/, "$1"));

/** The first line above the headings that is words and nothing else. */
function titleOf(rows: readonly TableRow[], before: number): string | null {
  for (const { row, cells } of rows) {
    if (row >= before) return null;
    const texts = cells.map(textOf).filter((text) => text !== "");
    const [only] = texts;
    if (texts.length === 1 && /\p{L}{3}/u.test(only!) && !/:\s*\S/.test(only!) && only!.length <= 150) return only!;
  }
  return null;
}

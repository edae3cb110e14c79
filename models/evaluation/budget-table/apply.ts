import { InputError, type Problem, type StudyDocument } from "../../../engine/index.ts";
import { MAXIMUM_INPUTS } from "../../../engine/internal.ts";
import type { TableRow } from "../table/table.ts";
import { rootSum } from "./cells.ts";
import { coefficientIn, unitAbove } from "./coefficient.ts";
import { compareRows, compareSums, readSums, type BudgetSummaryRow } from "./compare.ts";
import { corrected, headingTexts, MappedTable, type CellAddress } from "./mapped-table.ts";
import type { BudgetMapping, MappingQuestion, RowMeaning } from "./mapping.ts";
import { symbolIn } from "./names.ts";
import { inputName } from "../text/quantity-name.ts";
import { openCoefficient, openEstimateUnit, openStatements } from "./open-points.ts";
import { labelOf, readInput, type ReadInput } from "./read-row.ts";
import { studyOf, type BudgetTableOptions } from "./study.ts";
import type { BudgetTerm } from "./term.ts";
import { unitName } from "../text/unit-name.ts";

/** What a cell has that cannot be used. */
export interface CellComplaint extends Problem, CellAddress {}

/** A table read by its mapping. */
export interface AppliedMapping {
  readonly terms: readonly BudgetTerm[];
  readonly summary: readonly BudgetSummaryRow[];
  /** Unit of the result; empty for none. */
  readonly unit: string;
  /** Σ c·x, in the unit of the result. */
  readonly estimate: number;
  /** √Σ(c·u)² of the terms, in the unit of the result. */
  readonly combined: number;
  readonly remarks: readonly string[];
  readonly complaints: readonly CellComplaint[];
  /** What rows leave open. */
  readonly questions: readonly MappingQuestion[];
  /** `null` while anything is left open or cannot be used. */
  readonly study: StudyDocument | null;
}

/** A table of another kind has a problem in every row: the first ones say as much as all of them. */
const MOST_COMPLAINTS = 50;

/** Applies a mapping to the rows of a sheet: inputs of a study, what cannot be used, and what is still open. */
export function applyMapping(
  sheet: readonly TableRow[],
  mapping: BudgetMapping,
  options: BudgetTableOptions,
): AppliedMapping {
  const rows = corrected(sheet, mapping.cells);
  const table = new MappedTable(mapping, headingTexts(rows, mapping.headings));
  const complaints: CellComplaint[] = [];
  const collect = (error: unknown): void => {
    if (!(error instanceof InputError)) throw error;
    for (const problem of error.problems) {
      const address = table.addressOf(problem.place) ?? { row: 1, column: null };
      complaints.push({ ...problem, ...address });
    }
  };
  const read: ReadInput[] = [];
  for (const row of rows) {
    const meaning = mapping.rows[row.row];
    if (meaning?.is !== "input") continue;
    if (complaints.length > MOST_COMPLAINTS) break;
    try {
      read.push(readInput(table, row, meaning, mapping));
    } catch (error) {
      collect(error);
    }
    if (read.length > MAXIMUM_INPUTS) {
      const place = `row ${row.row}`;
      complaints.push({
        place,
        value: `more than ${MAXIMUM_INPUTS} inputs`,
        accepted: `a budget of at most ${MAXIMUM_INPUTS} inputs`,
        ...table.addressOf(place)!,
      });
      break;
    }
  }
  if (read.length === 0 && complaints.length === 0 && mapping.headings.length > 0) {
    const row = mapping.headings.at(-1)! + 1;
    complaints.push({
      place: `row ${row}`,
      value: "no rows",
      accepted: "at least one quantity below the headings",
      row,
      column: null,
    });
  }
  const questions = [...openStatements(read, table), ...openEstimateUnit(read, table)];
  const unit = options.measurand?.unit ?? resultUnit(read, table);
  const terms = termsOf(read, unit, mapping, questions, collect);
  const combined = rootSum(terms.map(({ sensitivity, standardUncertainty }) => sensitivity * standardUncertainty));
  const estimate = terms.reduce((sum, term) => sum + term.sensitivity * term.estimate, 0);
  const summary = readSums(table, rows, mapping);
  const whole = { terms, unit, combined, estimate };
  const ready = questions.length === 0 && complaints.length === 0 && terms.length > 0;
  return {
    ...whole,
    summary,
    remarks: [
      ...unusedColumns(mapping, rows),
      ...leftOutRows(table, mapping, rows),
      ...correctedCells(mapping),
      ...compareRows(table, rows, terms, unit),
      ...compareSums(summary, whole, questions.length + complaints.length === 0),
    ],
    complaints,
    questions,
    study: ready ? studyOf(terms, unit, options) : null,
  };
}

/** The result's unit: that of a term which counts as it is, what a coefficient's unit has above the line, or the contributions'. */
function resultUnit(read: readonly ReadInput[], table: MappedTable): string {
  const plain = read.find(
    ({ coefficient, unit }) => Math.abs(coefficient.value) === 1 && coefficient.unit === null && unit !== "",
  );
  if (plain !== undefined) return plain.unit;
  const above = read.map(({ coefficient }) => unitAbove(coefficient.unit)).find((unit) => unit !== null);
  return unitName(above ?? table.columnsOf("contribution")[0]?.unit ?? "");
}

function termsOf(
  read: readonly ReadInput[],
  unit: string,
  mapping: BudgetMapping,
  questions: MappingQuestion[],
  collect: (error: unknown) => void,
): BudgetTerm[] {
  const names = new Set<string>();
  return read.flatMap((input): BudgetTerm[] => {
    const { row, quantity, symbol, statement } = input;
    if ("open" in statement) return [];
    const name = inputName(symbol || quantity, row, names);
    names.add(name);
    try {
      const { standardUncertainty } = statement;
      const coefficient = coefficientIn(unit, { ...input.coefficient, standardUncertainty });
      if (coefficient === null) {
        questions.push(openCoefficient(input, unit));
        return [];
      }
      return [
        {
          row,
          input: name,
          symbol: symbol === "" ? symbolIn(quantity) : symbol,
          quantity,
          estimate: input.estimate,
          statement: statement.statement,
          sensitivity: coefficient.value,
          unit: input.unit,
          temperature: temperatureIn(input, mapping.rows[row]),
          standardUncertainty,
          assumed: [...input.assumed, ...statement.assumed, ...coefficient.assumed],
        },
      ];
    } catch (error) {
      collect(error);
      return [];
    }
  });
}

/** Differences in a comparison are small: whole degrees are a temperature, unless the reader states otherwise. */
const temperatureIn = ({ unit, estimate }: ReadInput, meaning: RowMeaning | undefined): boolean | null =>
  unit === "°C" ? (meaning?.temperature ?? Math.abs(estimate) >= 1) : null;

function unusedColumns(mapping: BudgetMapping, rows: readonly TableRow[]): string[] {
  const headings = headingTexts(rows, mapping.headings);
  const unused = Object.entries(mapping.columns).flatMap(([letter, { field }], i) =>
    field === null && (headings[i] ?? "") !== "" ? [`column ${letter} (${headings[i]!})`] : [],
  );
  return unused.length === 0 ? [] : [`not used: ${unused.join(", ")}`];
}

/** Rows below the headings that count for nothing: none is left out unsaid. */
function leftOutRows(table: MappedTable, mapping: BudgetMapping, rows: readonly TableRow[]): string[] {
  const left = rows.filter(({ row }) => mapping.rows[row]?.is === "left-out");
  const shown = left.slice(0, 12).map((row) => `row ${row.row} (${labelOf(table, row).slice(0, 60)})`);
  const more = left.length > shown.length ? ` and ${left.length - shown.length} more` : "";
  return left.length === 0 ? [] : [`left out: ${shown.join(", ")}${more}`];
}

const correctedCells = ({ cells }: BudgetMapping): string[] =>
  Object.entries(cells).map(([address, text]) => `cell ${address} read as “${text}”, as stated by the reader`);

import {
  InputError,
  MAXIMUM_INPUTS,
  refuse,
  type Problem,
  type Statement,
  type StudyDocument,
} from "../../../engine/index.ts";
import { degreesOfFreedomOf, digits, divisorOf, figureOf, isBlank, rootSum, textOf } from "./cells.ts";
import type { Cell, TableRow } from "../table/table.ts";
import { parseDecimal } from "../text/decimal.ts";
import { inputName } from "../text/quantity-name.ts";
import { unitName } from "../text/unit-name.ts";
import { mapHeadings, type BudgetField, type ColumnMapping } from "./headings.ts";
import { howStated, rowStatement } from "./row-statement.ts";
import { agreesAsPrinted, coefficientIn, unitAbove, type StatedCoefficient } from "./coefficient.ts";
import { otherZero, unitFactor } from "./unit-scale.ts";

/** One term of the table as it was understood. */
export interface BudgetTerm {
  readonly row: number;
  readonly input: string;
  readonly quantity: string;
  readonly statement: Statement;
  /** Sensitivity coefficient in units of the measurand per unit of the term. */
  readonly sensitivity: number;
  readonly unit: string;
  readonly standardUncertainty: number;
  /** Assumptions made, in words. */
  readonly assumed: readonly string[];
}

/** A row below the terms that sums up: not an input. */
export interface BudgetSummaryRow {
  readonly row: number;
  readonly label: string;
  /** Figures of the row with the unit of their column, if it has one. */
  readonly figures: readonly { readonly value: number; readonly unit: string | null }[];
}

export interface BudgetTableReading {
  /** What every column was taken for: to be shown before anything runs. */
  readonly mapping: readonly ColumnMapping[];
  /** Row of the headings. */
  readonly headingRow: number;
  readonly terms: readonly BudgetTerm[];
  readonly summary: readonly BudgetSummaryRow[];
  /** √Σ(c·u)² of the terms, in the unit of the measurand. */
  readonly combined: number;
  readonly remarks: readonly string[];
  readonly study: StudyDocument;
}

export interface BudgetTableOptions {
  readonly title: string;
  /** What the sum is. */
  readonly measurand?: {
    readonly name?: string;
    readonly symbol?: string;
    readonly meaning?: string;
    readonly unit?: string;
  };
  readonly coverage?: StudyDocument["coverage"];
  /** Fields for columns whose headings are not understood, by column letter. */
  readonly columns?: Readonly<Record<string, BudgetField>>;
}

/** Labels of rows that sum up. They count only if the row is not filled in as a term is. */
const SUMMARY =
  /^(combined|expanded (measurement )?uncertainty|sum|total|result|coverage (factor|probability)|effective degrees|measurand|[yk]$|u_?c\b|u ?\(y\)|U$)/i;

/**
 * Turns a budget that exists as a table into a study of the model `additive`, with nothing retyped.
 *
 * @param rows all rows of the sheet, headings and titles among them
 * @throws {InputError} no row of headings, or every cell that cannot be used, with row and column
 */
export function readBudgetTable(rows: readonly TableRow[], options: BudgetTableOptions): BudgetTableReading {
  const { mapping, headingRow, below } = headingsOf(rows, options);
  const reader = new RowReader(mapping);
  const problems: Problem[] = [];
  const read: ReadTerm[] = [];
  const summary: BudgetSummaryRow[] = [];
  const names = new Set<string>();
  for (const row of below) {
    if (row.cells.every((cell) => textOf(cell) === "")) continue;
    const label =
      textOf(reader.cell(row, "quantity")) ||
      textOf(reader.cell(row, "symbol")) ||
      textOf(row.cells.find((cell) => textOf(cell) !== ""));
    if (read.length > 0 && (reader.isResult(row) || (SUMMARY.test(label) && reader.isBare(row)))) {
      const figures = row.cells.flatMap((cell, i) => {
        const value = reader.sumOf(cell);
        return value === null ? [] : [{ value, unit: mapping[i]?.unit ?? null }];
      });
      summary.push({ row: row.row, label, figures });
      continue;
    }
    try {
      const term = reader.term(row, label, names);
      names.add(term.input);
      read.push(term);
      if (read.length > MAXIMUM_INPUTS)
        refuse(`row ${row.row}`, `more than ${MAXIMUM_INPUTS} terms`, `a budget of at most ${MAXIMUM_INPUTS} terms`);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
    }
    // A table of another kind has a problem in every row: the first ones say as much as all of them.
    if (read.length > MAXIMUM_INPUTS || problems.length > MAXIMUM_INPUTS) break;
  }
  if (problems.length > 0) throw new InputError(problems);
  if (read.length === 0) refuse(`row ${headingRow + 1}`, "no rows", "at least one quantity below the headings");
  const unit = options.measurand?.unit ?? measurandUnit(read);
  const terms = inUnitsOf(unit, read);
  return assemble(mapping, headingRow, unit, terms, summary, reader.remarks(unit, terms, below), options);
}

/** A term whose coefficient still has the unit it was written with. */
type ReadTerm = Omit<BudgetTerm, "sensitivity"> & { readonly coefficient: StatedCoefficient };

/** The measurand's unit: that of a term which counts as it is, or what a coefficient's unit has above the line. */
function measurandUnit(terms: readonly ReadTerm[]): string {
  const plain = terms.find(
    ({ coefficient, unit }) => Math.abs(coefficient.value) === 1 && coefficient.unit === null && unit !== "",
  );
  const above = terms.map(({ coefficient }) => unitAbove(coefficient.unit)).find((unit) => unit !== null);
  return plain?.unit ?? (above == null ? "" : unitName(above));
}

function inUnitsOf(measurand: string, read: readonly ReadTerm[]): BudgetTerm[] {
  const problems: Problem[] = [];
  const terms = read.flatMap(({ coefficient, ...term }): BudgetTerm[] => {
    try {
      const { value, assumed } = coefficientIn(measurand, coefficient);
      return [{ ...term, sensitivity: value, assumed: [...term.assumed, ...assumed] }];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
      return [];
    }
  });
  if (problems.length > 0) throw new InputError(problems);
  return terms;
}

function headingsOf(rows: readonly TableRow[], { columns }: BudgetTableOptions) {
  for (const [i, { row, cells }] of rows.slice(0, 30).entries()) {
    const mapping = mapHeadings(cells.map(textOf), columns);
    const has = (field: BudgetField): boolean => mapping.some((column) => column.field === field);
    if ((has("quantity") || has("symbol")) && (has("stated") || has("standard")))
      return { mapping, headingRow: row, below: rows.slice(i + 1) };
  }
  const first = rows.find(({ cells }) => cells.filter((cell) => textOf(cell) !== "").length > 1);
  return refuse(
    `row ${first?.row ?? 1}`,
    first?.cells.map(textOf).join(" | ") ?? "nothing",
    "a row of headings with the quantity and its uncertainty, such as: quantity | estimate | uncertainty | distribution | divisor | sensitivity coefficient | degrees of freedom",
  );
}

class RowReader {
  readonly #mapping: readonly ColumnMapping[];
  readonly #marks = new Map<"." | ",", string>();

  constructor(mapping: readonly ColumnMapping[]) {
    this.#mapping = mapping;
  }

  #column(field: BudgetField): ColumnMapping | undefined {
    return this.#mapping.find((column) => column.field === field);
  }

  cell(row: TableRow, field: BudgetField): Cell | undefined {
    const column = this.#column(field);
    return column === undefined ? undefined : row.cells[column.index];
  }

  #place(row: TableRow, field: BudgetField): string {
    const column = this.#column(field);
    return column === undefined
      ? `row ${row.row}, ${field}`
      : `row ${row.row}, column ${column.column} (${column.heading})`;
  }

  /**
   * The figure of a row that sums up, or `null` for other text. With the decimal mark of the terms; if they have
   * none, three places after a mark may as well be thousands ("1,234"), and such a figure is not compared.
   */
  sumOf(cell: Cell): number | null {
    if (typeof cell === "number") return cell;
    const number = typeof cell === "string" ? parseDecimal(cell) : null;
    if (number === null || number.mark === null) return number?.value ?? null;
    const [known] = this.#marks.keys();
    const fits = known === undefined ? number.mark === "." || !/,\d{3}$/.test(textOf(cell)) : known === number.mark;
    return fits ? number.value : null;
  }

  /** True if the row lacks what would make its figure a term. */
  isBare(row: TableRow): boolean {
    return (["howStated", "distribution", "sensitivity"] as const).every((field) => isBlank(this.cell(row, field)));
  }

  /** The row of the result as EA-4/02 prints it: an estimate and u(y), with nothing between. */
  isResult(row: TableRow): boolean {
    const empty = (["stated", "standard", "distribution", "sensitivity"] as const).every((field) =>
      isBlank(this.cell(row, field)),
    );
    return empty && !isBlank(this.cell(row, "contribution"));
  }

  /** A figure in `unit`, or in the unit of its own cell or heading converted to it. */
  #figure(row: TableRow, field: BudgetField, unit: string): number {
    const place = this.#place(row, field);
    const cell = this.cell(row, field);
    const figure = figureOf(cell, place);
    this.#mark(figure.mark, place, cell);
    const own = figure.unit ?? this.#column(field)?.unit ?? unit;
    const factor = own === unit || unit === "" ? 1 : unitFactor(own, unit);
    if (factor === null)
      return refuse(place, `${textOf(cell)} in ${own}`, `a figure in ${unit}, or in a multiple of it`);
    return figure.value * factor;
  }

  #mark(mark: "." | "," | null, place: string, cell: Cell | undefined): void {
    if (mark === null) return;
    const other = this.#marks.get(mark === "." ? "," : ".");
    if (other !== undefined) refuse(place, textOf(cell), `one decimal mark throughout: ${other} has the other`);
    if (!this.#marks.has(mark)) this.#marks.set(mark, place);
  }

  term(row: TableRow, label: string, names: ReadonlySet<string>): ReadTerm {
    const assumed: string[] = [];
    const estimateColumn = this.#column("estimate");
    const written = textOf(this.cell(row, "unit"));
    const estimateCell = this.cell(row, "estimate");
    const cellUnit = isBlank(estimateCell) ? null : figureOf(estimateCell, this.#place(row, "estimate")).unit;
    const useStated = this.#column("stated") !== undefined && !isBlank(this.cell(row, "stated"));
    const field: BudgetField = useStated || this.#column("standard") === undefined ? "stated" : "standard";
    const unit = unitName(written || cellUnit || estimateColumn?.unit || this.#column(field)?.unit || "");
    const estimate = isBlank(estimateCell) ? 0 : this.#figure(row, "estimate", unit);
    if (isBlank(estimateCell)) assumed.push("no estimate: 0");
    else if (estimate !== 0 && unit !== "" && written === "" && cellUnit === null && estimateColumn?.unit == null) {
      assumed.push(`estimate taken in ${unit}, the unit of its uncertainty`);
    }
    const estimateUnit = cellUnit ?? estimateColumn?.unit ?? unit;
    if (estimate !== 0 && otherZero(estimateUnit, unit))
      assumed.push(`estimate in ${estimateUnit} taken as a difference of temperatures, not counted from another zero`);
    if (isBlank(this.cell(row, field))) {
      refuse(this.#place(row, field), textOf(this.cell(row, field)), "an uncertainty; 0 for a quantity taken as exact");
    }
    const figure = this.#figure(row, field, unit);
    const how = howStated(this.cell(row, "howStated"), this.#place(row, "howStated"));
    const divisorCell = this.cell(row, "divisor");
    const divided = isBlank(divisorCell) ? null : divisorOf(divisorCell, this.#place(row, "divisor"));
    if (divided !== null) this.#mark(divided.mark, this.#place(row, "divisor"), divisorCell);
    // A divisor beside a column of standard uncertainties belongs to the figures before division, which the table leaves out.
    const divisor = useStated ? (divided?.value ?? how.factor) : null;
    const {
      statement,
      standardUncertainty,
      assumed: more,
    } = rowStatement(
      {
        estimate,
        figure,
        stated: useStated ? (how.stated ?? this.#column(field)!.implies) : "standard",
        distribution: textOf(this.cell(row, "distribution")),
        divisor,
        degreesOfFreedom: degreesOfFreedomOf(this.cell(row, "degreesOfFreedom"), this.#place(row, "degreesOfFreedom")),
        source: textOf(this.cell(row, "source")) || `budget table, row ${row.row}`,
      },
      {
        distribution: this.#place(row, "distribution"),
        divisor: this.#place(row, "divisor"),
        figure: this.#place(row, field),
      },
    );
    const sensitivityCell = this.cell(row, "sensitivity");
    let coefficient: { readonly value: number; readonly unit: string | null } = { value: 1, unit: null };
    if (isBlank(sensitivityCell)) assumed.push("no sensitivity coefficient: 1");
    else {
      const { value, unit: own, mark } = figureOf(sensitivityCell, this.#place(row, "sensitivity"));
      this.#mark(mark, this.#place(row, "sensitivity"), sensitivityCell);
      coefficient = { value, unit: own ?? this.#column("sensitivity")!.unit };
    }
    const symbol = textOf(this.cell(row, "symbol"));
    return {
      row: row.row,
      input: inputName(symbol || label, row.row, names),
      quantity: label,
      statement,
      coefficient: {
        ...coefficient,
        termUnit: unit,
        standardUncertainty,
        contribution: this.#contribution(row),
        place: coefficient.unit === null ? `row ${row.row}, unit` : this.#place(row, "sensitivity"),
      },
      unit,
      standardUncertainty,
      assumed: [...assumed, ...more],
    };
  }

  /** The row's own contribution; its unit is `null` if none is written. */
  #contribution(row: TableRow): StatedCoefficient["contribution"] {
    const column = this.#column("contribution");
    const cell = this.cell(row, "contribution");
    if (column === undefined || isBlank(cell)) return null;
    const { value, unit } = figureOf(cell, this.#place(row, "contribution"));
    return { value, unit: unit ?? column.unit };
  }

  /** Where the table's own figures differ from those computed from its terms. */
  remarks(unit: string, terms: readonly BudgetTerm[], rows: readonly TableRow[]): string[] {
    const remarks: string[] = [];
    const unused = this.#mapping.filter((column) => column.field === null && column.heading !== "");
    if (unused.length > 0)
      remarks.push(`not used: ${unused.map(({ column, heading }) => `column ${column} (${heading})`).join(", ")}`);
    const byNumber = new Map(rows.map((row) => [row.row, row]));
    for (const term of terms) {
      const row = byNumber.get(term.row)!;
      for (const [field, own, ownUnit] of [
        ["standard", term.standardUncertainty, term.unit],
        ["contribution", Math.abs(term.sensitivity) * term.standardUncertainty, unit],
      ] as const) {
        if (this.#column(field) === undefined || isBlank(this.cell(row, field))) continue;
        const figure = figureOf(this.cell(row, field), this.#place(row, field));
        const printedUnit = figure.unit ?? this.#column(field)!.unit ?? ownUnit;
        const factor = printedUnit === "" || ownUnit === "" ? 1 : unitFactor(printedUnit, ownUnit);
        if (factor === null) {
          remarks.push(`${this.#place(row, field)} is in ${printedUnit}, which does not go with ${ownUnit}`);
        } else if (!agreesAsPrinted(Math.abs(figure.value * factor), own)) {
          remarks.push(
            `${this.#place(row, field)} says ${digits(figure.value * factor)}, the row gives ${digits(own)}`,
          );
        }
      }
    }
    return remarks;
  }
}

function assemble(
  mapping: readonly ColumnMapping[],
  headingRow: number,
  unit: string,
  terms: readonly BudgetTerm[],
  summary: readonly BudgetSummaryRow[],
  remarks: readonly string[],
  { title, measurand, coverage }: BudgetTableOptions,
): BudgetTableReading {
  const coefficients = Object.fromEntries(terms.map(({ input, sensitivity }) => [input, sensitivity]));
  const combined = rootSum(terms.map(({ sensitivity, standardUncertainty }) => sensitivity * standardUncertainty));
  return {
    mapping,
    headingRow,
    terms,
    summary,
    combined,
    remarks: [
      ...remarks,
      ...(summary.length === 0
        ? []
        : [`taken for sums, not for terms: ${summary.map(({ row, label }) => `row ${row} (${label})`).join(", ")}`]),
      ...summaryRemarks(combined, unit, summary),
    ],
    study: {
      title,
      model: "additive",
      parameters: {
        coefficients,
        measurand: { ...measurand, ...(unit === "" ? {} : { unit }) },
        terms: Object.fromEntries(
          terms.map(({ input, quantity, unit: own }) => [
            input,
            { symbol: input, meaning: quantity, ...(own === "" ? {} : { unit: own }) },
          ]),
        ),
      },
      inputs: Object.fromEntries(terms.map(({ input, statement }) => [input, statement])),
      ...(coverage === undefined ? {} : { coverage }),
    },
  };
}

/** The table's own sum against that of the terms, each in the unit of its column. */
function summaryRemarks(combined: number, unit: string, summary: readonly BudgetSummaryRow[]): string[] {
  return summary
    .filter(({ label, figures }) => /combined|^u_?c|^u\(y\)/i.test(label) && figures.length > 0)
    .flatMap(({ row, label, figures }) => {
      const own = figures.map(
        (figure) => figure.value * (figure.unit === null || unit === "" ? 1 : (unitFactor(figure.unit, unit) ?? 1)),
      );
      // Two printed digits leave up to 5 % open.
      if (own.some((value) => Math.abs(value - combined) <= 0.05 * combined)) return [];
      return [
        `row ${row} (${label}) says ${own.map(digits).join(", ")}; the rows above combine to ${digits(combined)}`,
      ];
    });
}

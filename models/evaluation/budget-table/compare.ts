import type { TableRow } from "../table/table.ts";
import { withMinus } from "../text/minus.ts";
import { agreesAsPrinted, digits, isBlank, rootSum, textOf } from "./cells.ts";
import { FIGURE_FIELDS } from "./fields.ts";
import { readFigure } from "./figures.ts";
import type { MappedTable } from "./mapped-table.ts";
import type { BudgetMapping } from "./mapping.ts";
import type { BudgetTerm } from "./term.ts";
import { unitFactor } from "./unit-scale.ts";
import { sumWordIn } from "./vocabulary/index.ts";

/** A row that sums up: not an input, compared with what the inputs give. */
export interface BudgetSummaryRow {
  readonly row: number;
  readonly is: "total" | "result" | "expanded";
  readonly label: string;
  /** Figures of the row with the unit of their column, if it has one. */
  readonly figures: readonly { readonly value: number; readonly unit: string | null }[];
  /** The row's estimate, if it has one. */
  readonly estimate: { readonly value: number; readonly unit: string | null } | null;
  /** Coverage factor in the row; `null` for none. */
  readonly factor: number | null;
}

/** What the inputs give together. */
interface Together {
  readonly terms: readonly BudgetTerm[];
  readonly unit: string;
  readonly combined: number;
  readonly estimate: number;
}

const MOST_SUMS = 100;
const isSum = (mapping: BudgetMapping, { row }: TableRow): boolean =>
  ["total", "result", "expanded"].includes(mapping.rows[row]?.is ?? "");

/** Reads the rows that sum up. Figures that are no numbers are passed over: nothing is computed from them. */
export function readSums(table: MappedTable, rows: readonly TableRow[], mapping: BudgetMapping): BudgetSummaryRow[] {
  const stated = rows.flatMap((row) => (mapping.rows[row.row]?.is === "left-out" ? (factorRow(table, row) ?? []) : []));
  return rows
    .filter((row) => isSum(mapping, row))
    .slice(0, MOST_SUMS)
    .flatMap((row): BudgetSummaryRow[] => {
      const is = mapping.rows[row.row]?.is;
      if (is !== "total" && is !== "result" && is !== "expanded") return [];
      const label = textOf(row.cells.find((cell) => textOf(cell) !== ""));
      const estimateColumn = table.has(row, "estimate") ? table.column(row, "estimate") : null;
      const figures = row.cells.flatMap((cell, index) => {
        const column = table.columns.find((one) => one.index === index) ?? null;
        if (index === estimateColumn?.index && hasUncertainty(table, row)) return [];
        if (column !== null && !FIGURE_FIELDS.has(column.field)) return [];
        const figure = typeof cell === "number" ? { value: cell, unit: null } : readFigure(textOf(cell), table.decimal);
        if (figure === null || isBlank(cell)) return [];
        return [
          {
            value: figure.value,
            unit: column === null ? figure.unit : table.ownUnit(row, column, { ...figure, factor: null }),
          },
        ];
      });
      const text = row.cells.map(textOf).join(" ");
      const k = /\bk\s*=\s*(\d+(?:[.,]\d+)?)/i.exec(text)?.[1]?.replace(",", ".");
      const own = table.has(row, "divisor") ? readFigure(table.text(row, "divisor"), table.decimal)?.value : undefined;
      return [
        {
          row: row.row,
          is,
          label,
          figures,
          estimate: estimateColumn === null || figures.length === 0 ? null : estimateIn(table, row),
          factor: k === undefined ? (own ?? stated[0] ?? null) : Number(k),
        },
      ];
    });
}

const hasUncertainty = (table: MappedTable, row: TableRow): boolean =>
  (["stated", "standard", "contribution"] as const).some((field) => table.has(row, field));

function estimateIn(table: MappedTable, row: TableRow): BudgetSummaryRow["estimate"] {
  const column = table.column(row, "estimate")!;
  const cell = row.cells[column.index];
  const figure =
    typeof cell === "number" ? { value: cell, unit: null, factor: null } : readFigure(textOf(cell), table.decimal);
  return figure === null ? null : { value: figure.value, unit: table.ownUnit(row, column, figure) };
}

/** The factor in a row such as "Coverage factor k = 2". */
function factorRow(table: MappedTable, row: TableRow): number | null {
  const texts = row.cells.map(textOf).filter((text) => text !== "");
  const label = texts[0] ?? "";
  if (sumWordIn(label) !== "coverageFactor" && !/^k(\s*=.*)?$/i.test(label)) return null;
  const figures = texts.flatMap((text) => readFigure(text.replace(/^.*k\s*=\s*/i, ""), table.decimal) ?? []);
  const factor = figures.find(({ value, unit }) => unit === null && value >= 1 && value < 10)?.value;
  return factor ?? null;
}

/** Where the table's own figures of a row differ from those computed from it. */
export function compareRows(
  table: MappedTable,
  rows: readonly TableRow[],
  terms: readonly BudgetTerm[],
  unit: string,
): string[] {
  const byNumber = new Map(rows.map((row) => [row.row, row]));
  return terms.flatMap((term) => {
    const row = byNumber.get(term.row)!;
    return (
      [
        ["standard", term.standardUncertainty, term.unit],
        ["contribution", Math.abs(term.sensitivity) * term.standardUncertainty, unit],
      ] as const
    ).flatMap(([field, own, ownUnit]) => {
      const column = table.has(row, field) ? table.column(row, field) : null;
      if (column === null) return [];
      const figure = table.written(row, column);
      // A percentage of the estimate is the figure that the row was read from.
      if (field === "standard" && table.isPart(row, column, ownUnit)) return [];
      const printedUnit = table.ownUnit(row, column, figure) ?? ownUnit;
      const factor = printedUnit === "" || ownUnit === "" ? 1 : unitFactor(printedUnit, ownUnit);
      const place = table.place(row, field);
      if (factor === null) return [`${place} is in ${printedUnit}, which does not go with ${ownUnit}`];
      return agreesAsPrinted(Math.abs(figure.value * factor), own)
        ? []
        : [`${place} says ${digits(figure.value * factor)}, the row gives ${digits(own)}`];
    });
  });
}

/** The table's own sums against what the inputs give, each in the unit of its column. */
export function compareSums(summary: readonly BudgetSummaryRow[], together: Together, complete: boolean): string[] {
  if (summary.length === 0) return [];
  const taken = `taken for sums, not for inputs: ${summary.map(({ row, label }) => `row ${row} (${label})`).join(", ")}`;
  // While rows are left open, a sum of the others says nothing.
  if (!complete) return [taken];
  const found = summary.map((row) => compareSum(row, together, summary));
  const alike = summary.flatMap((row, i) =>
    row.figures.length > 0 && found[i]!.length === 0 ? [agreement(row, together.unit)] : [],
  );
  return [taken, ...found.flat(), ...(alike.length === 0 ? [] : [`agrees with the inputs: ${alike.join(", ")}`])];
}

/** A sum that the inputs give too, as the table has it: "row 9 (Combined standard uncertainty), 1.2 mK". */
function agreement({ row, label, figures }: BudgetSummaryRow, unit: string): string {
  const { value, unit: own } = figures[0]!;
  const written = own ?? unit;
  return `row ${row} (${label}), ${digits(Math.abs(value))}${written === "" ? "" : ` ${written}`}`;
}

function compareSum(row: BudgetSummaryRow, together: Together, summary: readonly BudgetSummaryRow[]): string[] {
  const { unit, terms } = together;
  const said = row.figures.map(({ value, unit: own }) =>
    Math.abs(value * (own === null || unit === "" ? 1 : (unitFactor(own, unit) ?? 1))),
  );
  const { combined } = together;
  const remarks: string[] = [];
  if (said.length > 0) {
    const above = summary.findLast((other) => other.is === "total" && other.row < row.row)?.row ?? 0;
    const group = terms.filter((term) => term.row > above && term.row < row.row);
    const groupSum = rootSum(group.map(({ sensitivity, standardUncertainty }) => sensitivity * standardUncertainty));
    const before = rootSum(
      terms
        .filter((term) => term.row < row.row)
        .map(({ sensitivity, standardUncertainty }) => sensitivity * standardUncertainty),
    );
    const expected =
      row.is === "expanded"
        ? [(row.factor ?? 2) * combined]
        : [combined, ...(row.is === "total" ? [groupSum, before] : [])];
    // The row may repeat the standard uncertainty beside the expanded one, and a total of variances is a square.
    const fits = said.some((value) =>
      [...expected, ...(row.is === "total" ? expected.map((one) => one * one) : [])].some((one) =>
        agreesAsPrinted(value, one),
      ),
    );
    if (!fits)
      remarks.push(
        row.is === "expanded"
          ? `row ${row.row} (${row.label}) says ${said.map(digits).join(", ")}; ${row.factor === null ? "with k = 2 " : `k = ${digits(row.factor)} and `}the inputs give ${digits(expected[0]!)}${unit === "" ? "" : ` ${unit}`}`
          : `row ${row.row} (${row.label}) says ${said.map(digits).join(", ")}; the inputs ${row.is === "total" && group.length > 0 && group.length < terms.length ? "above it " : ""}combine to ${digits(row.is === "total" && group.length > 0 ? groupSum : combined)}${unit === "" ? "" : ` ${unit}`}`,
      );
  }
  return [...remarks, ...compareEstimate(row, together)];
}

/** The printed estimate against Σ c·x, where it could be such a sum: to the last digits that a table prints. */
function compareEstimate({ is, row, label, estimate }: BudgetSummaryRow, together: Together): string[] {
  if (is !== "result" || estimate === null) return [];
  const { unit, combined } = together;
  const value = estimate.value * (estimate.unit === null || unit === "" ? 1 : (unitFactor(estimate.unit, unit) ?? 1));
  if (Math.abs(value - together.estimate) <= Math.max(0.05 * combined, 1e-9 * Math.abs(value))) return [];
  return [
    `row ${row} (${label}) has the estimate ${digitsOf(value)}; the sum of the inputs with their coefficients is ${digitsOf(together.estimate)}${unit === "" ? "" : ` ${unit}`}`,
  ];
}

const digitsOf = (value: number): string => withMinus(String(Number(value.toPrecision(9))));

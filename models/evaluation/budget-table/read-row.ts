import { refuse } from "../../../engine/index.ts";
import type { TableRow } from "../table/table.ts";
import { degreesOfFreedomOf, divisorOf, textOf } from "./cells.ts";
import type { StatedCoefficient } from "./coefficient.ts";
import type { Shape, Stated } from "./fields.ts";
import type { MappedColumn, MappedTable } from "./mapped-table.ts";
import type { BudgetMapping, RowMeaning } from "./mapping.ts";
import { isLimited, rowStatement, type OpenPoint, type RowStatement, type ShapeLetter } from "./statement.ts";
import { otherZero, unitFactor } from "./unit-scale.ts";
import { unitName } from "../text/unit-name.ts";
import { saysInfinite, shapeIn, STATED_ACCEPTED, statedIn } from "./vocabulary/index.ts";

/** A row of an input as far as it is understood. */
export interface ReadInput {
  readonly row: number;
  readonly quantity: string;
  /** As a column of symbols states it; empty for none. */
  readonly symbol: string;
  readonly unit: string;
  readonly estimate: number;
  readonly statement: RowStatement | OpenPoint;
  /** The column that the uncertainty was taken from. */
  readonly uncertainty: MappedColumn | null;
  readonly coefficient: Omit<StatedCoefficient, "standardUncertainty">;
  readonly assumed: readonly string[];
  /** An estimate whose unit nothing states, beside figures in this unit. */
  readonly estimateUnitOpen: boolean;
}

/** What the row is called: its quantity, its symbol or its first text. */
export const labelOf = (table: MappedTable, row: TableRow): string =>
  table.text(row, "quantity") || table.text(row, "symbol") || textOf(row.cells.find((cell) => textOf(cell) !== ""));

/** Reads a row of an input quantity. @throws {InputError} cells that cannot be used */
export function readInput(table: MappedTable, row: TableRow, meaning: RowMeaning, mapping: BudgetMapping): ReadInput {
  const assumed: string[] = [];
  const uncertainty = uncertaintyColumn(table, row);
  const estimateColumn = table.has(row, "estimate") ? table.column(row, "estimate") : null;
  const written = estimateColumn === null ? null : table.written(row, estimateColumn);
  const estimateUnit = estimateColumn === null ? null : table.ownUnit(row, estimateColumn, written);
  const rowUnit = table.rowUnit(row);
  const uncertaintyUnit = unitOfUncertainty(table, row, uncertainty, meaning);
  const unit = unitName(
    rowUnit || estimateUnit || table.column(row, "estimate")?.unit || uncertaintyUnit || mapping.unit,
  );
  let estimate = estimateColumn === null ? null : table.figure(row, estimateColumn, unit);
  if (estimate !== null && estimate !== 0 && otherZero(estimateUnit ?? unit, unit))
    assumed.push(
      `estimate in ${estimateUnit ?? unit} taken as a difference of temperatures, not counted from another zero`,
    );
  const { figure, factor: ownFactor, limits } = statedFigure(table, row, uncertainty, unit, estimate, meaning, assumed);
  if (limits !== null && estimate === null) estimate = (limits[0] + limits[1]) / 2;
  if (estimate === null) assumed.push("no estimate: 0");
  const how = howStated(table, row);
  const divisor = divisorIn(table, row, uncertainty, mapping);
  const { distribution, evaluation, letter } = distributionIn(table, row, meaning);
  const named = factorBeside(table, row, divisor !== null || how.factor !== null, assumed);
  const stated =
    meaning.stated ??
    how.stated ??
    (limits !== null || (isLimited(distribution) && saysPlusMinus(uncertainty)) ? "half-width" : null);
  const coefficient = coefficientOf(table, row, meaning, assumed);
  return {
    row: row.row,
    quantity: labelOf(table, row),
    symbol: table.text(row, "symbol"),
    unit,
    estimate: estimate ?? 0,
    statement: rowStatement(
      {
        estimate: estimate ?? 0,
        figure,
        stated: stated ?? uncertainty?.stated ?? (uncertainty?.field === "standard" ? "standard" : null),
        factor: meaning.factor ?? ownFactor ?? how.factor ?? uncertainty?.factor ?? named,
        divisor,
        distribution,
        evaluation,
        letter,
        readings: readingsIn(table, row),
        settled: meaning.stated !== undefined || how.stated !== null,
        degreesOfFreedom: degreesOfFreedomOf(
          table.cell(row, "degreesOfFreedom"),
          table.place(row, "degreesOfFreedom"),
          table.decimal,
        ),
        check: ownStandardUncertainty(table, row, uncertainty, unit, estimate, coefficient),
        source: table.text(row, "source") || `budget table, row ${row.row}`,
      },
      {
        divisor: table.place(row, "divisor"),
        figure: table.place(row, uncertainty?.field ?? "stated"),
      },
    ),
    uncertainty,
    coefficient: { ...coefficient, termUnit: unit, contribution: contributionOf(table, row) },
    assumed,
    estimateUnitOpen:
      rowUnit === "" &&
      estimateColumn !== null &&
      estimateUnit === null &&
      estimate !== 0 &&
      unit !== "" &&
      unit !== mapping.unit,
  };
}

/** The column of the row's uncertainty: as stated, before it is divided, or else the standard uncertainty. */
function uncertaintyColumn(table: MappedTable, row: TableRow): MappedColumn | null {
  const field = table.has(row, "stated") || table.columnsOf("standard").length === 0 ? "stated" : "standard";
  if (table.columnsOf(field).length > 0 || table.columnsOf("lower").length === 0) return table.column(row, field);
  return table.column(row, "lower");
}

function unitOfUncertainty(
  table: MappedTable,
  row: TableRow,
  column: MappedColumn | null,
  { exact }: RowMeaning,
): string | null {
  if (column === null) return null;
  const written = exact === true || !table.has(row, column.field) ? null : table.written(row, column);
  if (written?.ofReading === true) return null;
  return table.ownUnit(row, column, written);
}

interface StatedFigure {
  readonly figure: number;
  readonly factor: number | null;
  readonly limits: readonly [number, number] | null;
}

function statedFigure(
  table: MappedTable,
  row: TableRow,
  column: MappedColumn | null,
  unit: string,
  estimate: number | null,
  { exact }: RowMeaning,
  assumed: string[],
): StatedFigure {
  if (exact === true) return { figure: 0, factor: null, limits: null };
  const [lower, upper] = [table.column(row, "lower"), table.column(row, "upper")];
  const byLimits = lower !== null && upper !== null && table.has(row, "lower") && table.has(row, "upper");
  if (byLimits && (column === lower || !table.has(row, column?.field ?? "stated"))) {
    const limits = [table.figure(row, lower, unit), table.figure(row, upper, unit)] as const;
    assumed.push("half of the distance between the limits");
    return { figure: (limits[1] - limits[0]) / 2, factor: null, limits };
  }
  const field = column?.field ?? "stated";
  if (column === null || !table.has(row, field))
    return refuse(
      table.place(row, field),
      textOf(table.cell(row, field)),
      "an uncertainty; 0 for a quantity taken as exact",
    );
  const figure = table.figure(row, column, unit, estimate);
  const [own, written] = [table.ownUnit(row, column, table.written(row, column)), table.written(row, column).unit];
  if (own === "%" && unit === "%" && written === null && column.unit === "%" && (estimate ?? 0) !== 0)
    assumed.push(`uncertainty in %, the unit of the row, not a part of the estimate`);
  if (
    own !== null &&
    own !== "%" &&
    unit === "1" &&
    (estimate ?? 0) !== 0 &&
    written !== null &&
    !table.isPart(row, column, unit)
  )
    assumed.push(
      `${textOf(row.cells[column.index])} taken as it is written, not as a part of the estimate ${estimate}`,
    );
  if (table.isPart(row, column, unit))
    assumed.push(`${textOf(row.cells[column.index])} taken as a part of the estimate ${estimate}: ${figure} ${unit}`);
  return { figure, factor: table.written(row, column).factor, limits: null };
}

/** Reads "how stated": standard, expanded or k = 2, half-width or ±. */
function howStated(
  table: MappedTable,
  row: TableRow,
): { readonly stated: Stated | null; readonly factor: number | null } {
  if (!table.has(row, "howStated")) return { stated: null, factor: null };
  const text = table.text(row, "howStated");
  const k = /k\s*=\s*([\d.,]+)/i.exec(text);
  const place = table.place(row, "howStated");
  if (k !== null) {
    const factor = divisorOf(k[1]!, place, /,/.test(k[1]!) ? "," : ".");
    return { stated: factor === 1 ? "standard" : "expanded", factor };
  }
  if (/±|\+\/-/.test(text)) return { stated: "half-width", factor: null };
  const stated = statedIn(text) ?? (/^1\s*[sσ]$/i.test(text) ? "standard" : null);
  return { stated: stated ?? refuse(place, text, `${STATED_ACCEPTED}; for an expanded one with k = …`), factor: null };
}

const saysPlusMinus = (column: MappedColumn | null): boolean =>
  column !== null && column.stated === null && /±|\+\s*\/\s*-/.test(column.heading);

/** A coverage factor beside the name of the distribution or of the quantity, where nothing else of the row divides. */
function factorBeside(table: MappedTable, row: TableRow, divided: boolean, assumed: string[]): number | null {
  if (divided) return null;
  for (const field of ["distribution", "quantity"] as const) {
    const text = table.has(row, field) ? table.text(row, field) : "";
    const k = /\bk\s*=\s*(\d+(?:[.,]\d+)?)/i.exec(text);
    const factor = k === null ? 0 : Number(k[1]!.replace(",", "."));
    if (!(factor > 0)) continue;
    assumed.push(`k = ${k![1]!}, as “${text}” says`);
    return factor;
  }
  return null;
}

/** The divisor, if there is one for the figure taken: beside standard uncertainties it belongs to what they were made from. */
function divisorIn(
  table: MappedTable,
  row: TableRow,
  column: MappedColumn | null,
  { divisors }: BudgetMapping,
): number | null {
  if (column?.field === "standard" || !table.has(row, "divisor")) return null;
  const value = divisorOf(table.cell(row, "divisor"), table.place(row, "divisor"), table.decimal);
  return divisors === "multiply" ? 1 / value : value;
}

const EVALUATION = /^(?:(?:type|typ|tipo|type d'évaluation)\s*)?([AB])(?:\s*[:,;/–-].*|\s*\(.*\))?$/i;

function distributionIn(
  table: MappedTable,
  row: TableRow,
  meaning: RowMeaning,
): { readonly distribution: Shape | null; readonly evaluation: "A" | "B" | null; readonly letter: ShapeLetter | null } {
  const texts = (["type", "distribution"] as const).map((field) =>
    table.has(row, field) ? table.text(row, field) : "",
  );
  const letter = texts.flatMap((text) => EVALUATION.exec(text)?.[1]?.toUpperCase() ?? [])[0];
  const evaluation = letter === "A" || letter === "B" ? letter : null;
  if (meaning.distribution !== undefined) return { distribution: meaning.distribution, evaluation, letter: null };
  const written = texts[1]!;
  const double = /^(?:[Uu]|T)\.?$/.exec(written)?.[0]?.[0]!.toUpperCase() as ShapeLetter | undefined;
  if (double !== undefined) return { distribution: null, evaluation, letter: double };
  const alone = written === "" || /^(?:type|typ|tipo)?\s*[AB]$/i.test(written);
  const named = alone ? null : shapeIn(written);
  if (!alone && named === null)
    return refuse(
      table.place(row, "distribution"),
      written,
      "normal, rectangular, triangular, arcsine (U-shaped) or t",
    );
  // How an uncertainty is stated may name the distribution too: "rectangular, ± a".
  const elsewhere = [EVALUATION.test(texts[0]!) ? "" : texts[0]!, table.text(row, "howStated")];
  return {
    distribution: named ?? (alone ? (elsewhere.map(shapeIn).find((shape) => shape !== null) ?? null) : null),
    evaluation,
    letter: null,
  };
}

/** How many readings the row's figure rests on. @throws {InputError} */
function readingsIn(table: MappedTable, row: TableRow): number | null {
  if (!table.has(row, "readings") || saysInfinite(table.text(row, "readings"))) return null;
  const { value } = table.written(row, table.column(row, "readings")!);
  if (!Number.isInteger(value) || value < 1)
    refuse(table.place(row, "readings"), table.text(row, "readings"), "a whole number of readings, at least 1");
  return value;
}

function coefficientOf(
  table: MappedTable,
  row: TableRow,
  meaning: RowMeaning,
  assumed: string[],
): Pick<StatedCoefficient, "value" | "unit" | "place"> {
  const column = table.has(row, "sensitivity") ? table.column(row, "sensitivity") : null;
  if (column === null) {
    assumed.push("no sensitivity coefficient: 1");
    return { value: 1, unit: null, place: `row ${row.row}, unit` };
  }
  const written = table.written(row, column);
  const unit = meaning.sensitivityUnit ?? table.ownUnit(row, column, written);
  return {
    value: written.value,
    unit,
    place: unit === null ? `row ${row.row}, unit` : table.place(row, "sensitivity"),
  };
}

/** The row's own contribution; its unit is `null` if none is written. */
function contributionOf(table: MappedTable, row: TableRow): StatedCoefficient["contribution"] {
  const column = table.has(row, "contribution") ? table.column(row, "contribution") : null;
  if (column === null) return null;
  const written = table.written(row, column);
  return { value: written.value, unit: table.ownUnit(row, column, written) };
}

/** The standard uncertainty that the table itself gives for the row, or that its contribution implies. */
function ownStandardUncertainty(
  table: MappedTable,
  row: TableRow,
  uncertainty: MappedColumn | null,
  unit: string,
  estimate: number | null,
  { value, unit: coefficientUnit }: Pick<StatedCoefficient, "value" | "unit">,
): number | null {
  const column = table.has(row, "standard") ? table.column(row, "standard") : null;
  if (column !== null && uncertainty?.field !== "standard")
    return Math.abs(table.figure(row, column, unit, estimate)) || null;
  const contribution = contributionOf(table, row);
  if (contribution === null || coefficientUnit !== null || value === 0) return null;
  const factor = contribution.unit === null || unit === "" ? 1 : unitFactor(contribution.unit, unit);
  return factor === null ? null : Math.abs((contribution.value * factor) / value) || null;
}

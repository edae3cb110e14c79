import { refuse } from "../../../engine/index.ts";
import { columnIndex, type Cell, type TableRow } from "../table/table.ts";
import { figureOf, isBlank, textOf } from "./cells.ts";
import { FIGURE_FIELDS, type BudgetField, type Stated } from "./fields.ts";
import type { Figure } from "./figures.ts";
import { meaningOfHeading } from "./headings.ts";
import type { BudgetMapping } from "./mapping.ts";
import { unitFactor } from "./unit-scale.ts";
import { unitName } from "../text/unit-name.ts";

/** A column of the table as the mapping has it. */
export interface MappedColumn {
  readonly letter: string;
  readonly index: number;
  readonly heading: string;
  readonly field: BudgetField;
  readonly unit: string | null;
  readonly stated: Stated | null;
  readonly factor: number | null;
}

/** Where a problem stands. */
export interface CellAddress {
  readonly row: number;
  /** `null` for the row as a whole. */
  readonly column: string | null;
}

const NONE: readonly MappedColumn[] = [];

/** A table seen through its mapping: cells by what they hold, in the order of the sheet. */
export class MappedTable {
  readonly columns: readonly MappedColumn[];
  readonly #mapping: BudgetMapping;
  readonly #byField = new Map<BudgetField, readonly MappedColumn[]>();
  /** By index of a figure's column: that of the units beside it, where several columns have units. */
  readonly #unitsBeside: ReadonlyMap<number, MappedColumn>;
  readonly #rowUnit: MappedColumn | null;
  readonly #addresses = new Map<string, CellAddress>();

  constructor(mapping: BudgetMapping, headings: readonly string[]) {
    this.#mapping = mapping;
    this.columns = Object.entries(mapping.columns)
      .flatMap(([letter, { field, unit, stated, factor }]): MappedColumn[] => {
        const index = columnIndex(letter);
        return field === null
          ? []
          : [
              {
                letter,
                index,
                heading: headings[index] ?? "",
                field,
                unit: unit == null || unit === "" ? null : unitName(unit),
                stated: stated ?? null,
                factor: factor ?? null,
              },
            ];
      })
      .toSorted((a, b) => a.index - b.index);
    for (const column of this.columns)
      this.#byField.set(column.field, [...(this.#byField.get(column.field) ?? NONE), column]);
    const units = this.columnsOf("unit");
    this.#rowUnit =
      units.length === 1 ? units[0]! : (units.find((unit) => this.#figuresBefore(unit).length === 0) ?? null);
    this.#unitsBeside = new Map(
      units.length < 2
        ? []
        : units.flatMap((unit) => this.#figuresBefore(unit).map((figure) => [figure.index, unit] as const)),
    );
  }

  /** Columns of figures between this column of units and the one before it. */
  #figuresBefore(unit: MappedColumn): readonly MappedColumn[] {
    const before = this.columns.filter(({ index }) => index < unit.index);
    const last = before.findLastIndex(({ field }) => field === "unit");
    const figures = before.slice(last + 1).filter(({ field }) => FIGURE_FIELDS.has(field));
    // A coefficient's unit is its own.
    return figures.at(-1)?.field === "sensitivity" ? figures.slice(-1) : figures;
  }

  get decimal(): BudgetMapping["decimal"] {
    return this.#mapping.decimal;
  }

  columnsOf(field: BudgetField): readonly MappedColumn[] {
    return this.#byField.get(field) ?? NONE;
  }

  /** The column of a field; of several, the one that is filled in in this row. */
  column(row: TableRow, field: BudgetField): MappedColumn | null {
    const columns = this.columnsOf(field);
    return columns.find(({ index }) => !isBlank(row.cells[index])) ?? columns[0] ?? null;
  }

  cell(row: TableRow, field: BudgetField): Cell | undefined {
    const column = this.column(row, field);
    return column === null ? undefined : row.cells[column.index];
  }

  text(row: TableRow, field: BudgetField): string {
    return textOf(this.cell(row, field));
  }

  has(row: TableRow, field: BudgetField): boolean {
    return !isBlank(this.cell(row, field));
  }

  place(row: TableRow, field: BudgetField): string {
    const column = this.column(row, field);
    const place = column === null ? `row ${row.row}, ${PLACES[field] ?? field}` : placeOf(row.row, column);
    this.#addresses.set(place, { row: row.row, column: column?.letter ?? null });
    return place;
  }

  /** The cell that a place handed out by `place` names. */
  addressOf(place: string): CellAddress | null {
    const row = /^row (\d+)/.exec(place)?.[1];
    return this.#addresses.get(place) ?? (row === undefined ? null : { row: Number(row), column: null });
  }

  /** The unit written for the row as a whole, or empty. */
  rowUnit(row: TableRow): string {
    return this.#rowUnit === null ? "" : unitOfCell(row.cells[this.#rowUnit.index]);
  }

  /** The unit that a figure has by its cell, the cell of units beside it, or its column; `null` for none. */
  ownUnit(row: TableRow, column: MappedColumn, figure: Figure | null): string | null {
    const beside = this.#unitsBeside.get(column.index);
    const written = beside === undefined ? "" : unitOfCell(row.cells[beside.index]);
    return figure?.unit ?? (written === "" ? column.unit : written);
  }

  /** A figure as it is written. @throws {InputError} */
  written(row: TableRow, column: MappedColumn): Figure {
    return figureOf(row.cells[column.index], this.#placeIn(row, column), this.decimal);
  }

  #placeIn(row: TableRow, column: MappedColumn): string {
    const place = placeOf(row.row, column);
    this.#addresses.set(place, { row: row.row, column: column.letter });
    return place;
  }

  /** Whether a figure is stated as a part of the row's estimate: in per cent, where the row has another unit. */
  isPart(row: TableRow, column: MappedColumn, unit: string): boolean {
    const figure = this.written(row, column);
    if (figure.ofReading === true) return true;
    const own = this.ownUnit(row, column, figure);
    return own !== null && own !== unit && Object.hasOwn(PARTS, own) && unit !== "" && unitFactor(own, unit) === null;
  }

  /**
   * A figure in `unit`, converted from the unit of its own cell or column.
   *
   * @param of the estimate, of which a figure in per cent is a part; `null` for none, or for a figure that cannot be one
   * @throws {InputError}
   */
  figure(row: TableRow, column: MappedColumn, unit: string, of: number | null = null): number {
    const place = this.#placeIn(row, column);
    const figure = this.written(row, column);
    const own = this.ownUnit(row, column, figure) ?? unit;
    const relative = figure.ofReading === true;
    const factor = relative ? null : own === unit || unit === "" ? 1 : unitFactor(own, unit);
    if (factor !== null) return figure.value * factor;
    if (of !== null && of !== 0 && this.isPart(row, column, unit))
      return Number(((figure.value * Math.abs(of)) / PARTS[own]!).toPrecision(15));
    const text = textOf(row.cells[column.index]);
    return refuse(place, `${text}${figure.unit === null ? ` ${own}` : ""}`, expectedUnit(own, unit));
  }
}

/** Units that state a part of something, and what a figure in each is divided by. */
const PARTS: Readonly<Record<string, number>> = { "%": 100, "‰": 1000, ppm: 1_000_000 };

const expectedUnit = (own: string, unit: string): string =>
  Object.hasOwn(PARTS, own)
    ? `a figure in ${unit}: a relative figure is a part of the estimate, which must then stand in the row and not be 0`
    : `a figure in ${unit}, or in a multiple of it`;

const placeOf = (row: number, { letter, heading }: MappedColumn): string =>
  `row ${row}, column ${letter}${heading === "" ? "" : ` (${heading})`}`;

/** A cell of units: brackets and "in" are no part of it. */
const unitOfCell = (cell: Cell | undefined): string =>
  isBlank(cell) ? "" : unitName(textOf(cell).replace(/^[([](.*)[)\]]$/, "$1"));

/** Words for a field that the table has no column of. */
const PLACES: Readonly<Partial<Record<BudgetField, string>>> = {
  stated: "uncertainty",
  standard: "standard uncertainty",
  howStated: "how the uncertainty is stated",
  degreesOfFreedom: "degrees of freedom",
  sensitivity: "sensitivity coefficient",
};

/** Texts of the rows that head the columns, joined downwards; a merged cell counts for the columns it spans. */
export function headingTexts(rows: readonly TableRow[], headings: readonly number[]): string[] {
  const heads = headings.flatMap((number) => rows.find(({ row }) => row === number) ?? []);
  const width = Math.max(0, ...heads.map(({ cells }) => cells.length));
  const last = heads.at(-1);
  return Array.from({ length: width }, (_, i) => {
    const lowest = textOf(last?.cells[i]);
    const spanned = heads.length > 1 && heads.slice(0, -1).every((head) => textOf(head.cells[i]) === "");
    // "Divisor" below a merged "Uncertainty" is a divisor: what heads the whole says no more.
    if (spanned && OWN_BELOW.has(meaningOfHeading(lowest)?.field ?? "")) return lowest;
    const parts = heads.map((head) => {
      const own = textOf(head.cells[i]);
      // A merged cell has its text in its first column; the others below it are headed by it too.
      return own !== "" || head === last || textOf(last?.cells[i]) === "" ? own : textOf(spanning(head, i));
    });
    return parts.filter((part, n) => part !== "" && part !== parts[n - 1]).join(" ");
  });
}

/** Fields whose heading means the same below any other. */
const OWN_BELOW: ReadonlySet<string> = new Set<BudgetField>([
  "howStated",
  "distribution",
  "type",
  "divisor",
  "sensitivity",
  "degreesOfFreedom",
  "source",
]);

const spanning = ({ cells }: TableRow, i: number): Cell | undefined =>
  cells.slice(0, i).findLast((cell) => textOf(cell) !== "");

/** Rows as the reader corrected them: cells read otherwise than they are written. */
export function corrected(rows: readonly TableRow[], cells: BudgetMapping["cells"]): readonly TableRow[] {
  if (Object.keys(cells).length === 0) return rows;
  const byRow = new Map<number, [number, string][]>();
  for (const [address, text] of Object.entries(cells)) {
    const [, letters, row] = /^([A-Z]+)(\d+)$/.exec(address)!;
    byRow.set(Number(row), [...(byRow.get(Number(row)) ?? []), [columnIndex(letters!), text]]);
  }
  return rows.map((row) => {
    const changes = byRow.get(row.row);
    if (changes === undefined) return row;
    const written = [...row.cells];
    for (const [index, text] of changes) {
      while (written.length <= index) written.push(null);
      written[index] = text;
    }
    return { ...row, cells: written };
  });
}

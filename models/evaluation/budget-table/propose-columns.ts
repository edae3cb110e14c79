import type { Cell, TableRow } from "../table/table.ts";
import { agreesAsPrinted, isBlank, looksLikeFigure, textOf } from "./cells.ts";
import type { BudgetField } from "./fields.ts";
import { readFigure, rootIn } from "./figures.ts";
import type { HeadedColumn } from "./headings.ts";
import type { ColumnMeaning, StatedMapping } from "./mapping.ts";
import { isKnownUnit } from "./unit-scale.ts";
import { shapeIn } from "./vocabulary/index.ts";

type Columns = Readonly<Record<string, ColumnMeaning>>;

/** What each column is taken for: what the reader states, else its heading, else what its cells can only be. */
export function proposeColumns(
  headed: readonly HeadedColumn[],
  rows: readonly TableRow[],
  stated: StatedMapping["columns"] = {},
  units: readonly string[] = [],
): Columns {
  const byHeading = headed.map((column): readonly [string, ColumnMeaning] => {
    const own = stated[column.column] ?? {};
    const below = units[column.index] ?? "";
    return [
      column.column,
      {
        field: column.field,
        unit: own.unit !== undefined ? own.unit : (column.unit ?? (isKnownUnit(below) ? below : null)),
        stated: own.stated !== undefined ? own.stated : column.implies,
        factor: own.factor !== undefined ? own.factor : column.factor,
      },
    ];
  });
  const columns = Object.fromEntries(byHeading);
  const free = (letter: string): boolean => stated[letter]?.field === undefined;
  for (const { column, index } of headed)
    if (free(column)) columns[column] = byContents(columns[column]!, index, rows, columns);
  giveWay(columns, stated, free);
  valueIsDivided(columns, headed, rows, free);
  return withNames(columns, headed, rows, free);
}

const cellsOf = (rows: readonly TableRow[], index: number): readonly string[] =>
  rows.flatMap(({ cells }) => (isBlank(cells[index]) ? [] : [textOf(cells[index])]));

/** A column headed "Type" may hold distributions, and one headed "Distribution" the letters A and B alone. */
function byContents(meaning: ColumnMeaning, index: number, rows: readonly TableRow[], all: Columns): ColumnMeaning {
  const { field } = meaning;
  // "Beitrag" heads the names of contributions as well as their figures.
  if (field === "contribution") {
    const cells = cellsOf(rows, index);
    const named = cells.filter((text) => !looksLikeFigure(text) && /\p{L}/u.test(text)).length;
    const free = !Object.values(all).some((one) => one.field === "quantity");
    return free && named > cells.length / 2 ? { field: "quantity" } : meaning;
  }
  if (field !== "type" && field !== "howStated" && field !== "distribution") return meaning;
  const texts = cellsOf(rows, index);
  const letters = texts.filter((text) => /^(?:type|typ|tipo)?\s*[AB]$/i.test(text)).length;
  const others = new Set(Object.values(all).map((one) => one.field));
  if (letters > texts.length / 2) return others.has("type") ? meaning : { ...meaning, field: "type" };
  const shapes = texts.filter((text) => shapeIn(text) !== null).length;
  if (field === "type" && shapes > texts.length / 2 && !others.has("distribution"))
    return { ...meaning, field: "distribution" };
  return meaning;
}

/** What the reader states takes the place of what was proposed for another column. */
function giveWay(
  columns: Record<string, ColumnMeaning>,
  stated: NonNullable<StatedMapping["columns"]>,
  free: (letter: string) => boolean,
): void {
  const fields = new Set(Object.values(stated).flatMap(({ field }) => field ?? []));
  for (const [letter, meaning] of Object.entries(columns))
    if (free(letter) && meaning.field !== null && meaning.field !== "unit" && fields.has(meaning.field))
      columns[letter] = { ...meaning, field: null };
}

/**
 * Where a divisor divides nothing but the "value", the value is the uncertainty: if the figures beside it are what the
 * division gives, times the coefficient.
 */
function valueIsDivided(
  columns: Record<string, ColumnMeaning>,
  headed: readonly HeadedColumn[],
  rows: readonly TableRow[],
  free: (letter: string) => boolean,
): void {
  const at = (field: BudgetField): HeadedColumn | undefined =>
    headed.find(({ column }) => columns[column]!.field === field);
  const [value, divisor, result] = [at("estimate"), at("divisor"), at("contribution") ?? at("standard")];
  if (value === undefined || divisor === undefined || result === undefined || at("stated") !== undefined) return;
  if (!free(value.column) || !free(result.column) || at("lower") !== undefined) return;
  const sensitivity = at("sensitivity");
  const fits = rows.map(({ cells }) => {
    const figure = (column: HeadedColumn | undefined): number | null =>
      column === undefined || isBlank(cells[column.index]) ? 1 : figureIn(cells[column.index]);
    const [a, d, c, own] = [figure(value), figure(divisor), figure(sensitivity), figure(result)];
    if (isBlank(cells[value.index]) || isBlank(cells[divisor.index]) || isBlank(cells[result.index])) return null;
    return (
      a !== null && d !== null && c !== null && own !== null && agreesAsPrinted(Math.abs(own), Math.abs((a * c) / d))
    );
  });
  const known = fits.filter((fit) => fit !== null);
  if (known.length === 0 || known.filter((fit) => fit).length <= known.length / 2) return;
  columns[value.column] = { ...columns[value.column]!, field: "stated", stated: null };
  if (columns[result.column]!.field === "standard" && sensitivity !== undefined)
    columns[result.column] = { ...columns[result.column]!, field: "contribution", stated: null };
}

const figureIn = (cell: Cell | undefined): number | null => {
  const text = textOf(cell);
  return (
    rootIn(text) ?? (typeof cell === "number" ? cell : (readFigure(text, ".") ?? readFigure(text, ","))?.value) ?? null
  );
};

/** The leftmost column of words names the quantities if no heading does; contributions alone are the uncertainties. */
function withNames(
  columns: Record<string, ColumnMeaning>,
  headed: readonly HeadedColumn[],
  rows: readonly TableRow[],
  free: (letter: string) => boolean,
): Columns {
  const has = (...fields: readonly BudgetField[]): boolean =>
    Object.values(columns).some(({ field }) => field !== null && fields.includes(field));
  if (!has("distribution", "type", "howStated")) {
    const shapes = headed.find(
      ({ column, index }) => columns[column]!.field === null && free(column) && areShapes(cellsOf(rows, index)),
    );
    if (shapes !== undefined) columns[shapes.column] = { ...columns[shapes.column]!, field: "distribution" };
  }
  if (!has("quantity")) {
    const words = headed.find(
      ({ column, index }) =>
        columns[column]!.field === null &&
        free(column) &&
        cellsOf(rows, index).filter((text) => !looksLikeFigure(text) && /\p{L}/u.test(text)).length > rows.length / 3,
    );
    if (words !== undefined) columns[words.column] = { ...columns[words.column]!, field: "quantity" };
  }
  if (!has("stated", "standard", "lower") && !has("sensitivity")) {
    const only = Object.entries(columns).find(([letter, { field }]) => field === "contribution" && free(letter));
    if (only !== undefined) columns[only[0]] = { ...only[1], field: "standard", stated: "standard" };
  }
  return columns;
}

/** Names of distributions whatever their heading is: words, or letters of which some return, as those of symbols do not. */
const areShapes = (texts: readonly string[]): boolean =>
  texts.length > 1 &&
  texts.every((text) => shapeIn(text) !== null) &&
  (texts.some((text) => text.length > 3) || new Set(texts).size < texts.length);

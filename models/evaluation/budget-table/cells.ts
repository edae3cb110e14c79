import { elementary, refuse } from "../../../engine/index.ts";
import type { Cell } from "../table/table.ts";
import type { DecimalMark } from "../text/decimal.ts";
import { withMinus } from "../text/minus.ts";
import { readFigure, rootIn, tidied, type Figure } from "./figures.ts";
import { saysInfinite } from "./vocabulary/index.ts";

export const textOf = (cell: Cell | undefined): string =>
  cell === null || cell === undefined ? "" : String(cell).trim();

/** True for a cell that is empty or marks the absence of a value. */
export const isBlank = (cell: Cell | undefined): boolean => /^(?:[-–—−/.]*|n\.?\s?\/?\s?[ad]\.?)$/i.test(textOf(cell));

/** True for a cell that can only be a figure: a number, or a text that begins with one. */
export const looksLikeFigure = (cell: Cell | undefined): boolean =>
  typeof cell === "number" || (!isBlank(cell) && !isDate(cell) && /^[-+]?[\d.,]*\d/.test(tidied(textOf(cell))));

/** A day, as a signature below the table has one. */
export const isDate = (cell: Cell | undefined): boolean => /^\d{1,4}([-./])\d{1,2}\1\d{1,4}(?:\D|$)/.test(textOf(cell));

/** What a spreadsheet writes where a formula has no value (ECMA-376-1, 18.17.3). */
const isSpreadsheetError = (text: string): boolean =>
  /^#(DIV\/0!|N\/A|NAME\?|NULL!|NUM!|REF!|VALUE!|WERT!|BEZUG!|NOME\?|VALOR!|VALEUR!|¡.*!|.*[!?])$/i.test(text);

/** Reads a figure, with a leading ± and a trailing unit allowed. @throws {InputError} */
export function figureOf(cell: Cell | undefined, place: string, decimal: DecimalMark): Figure {
  if (typeof cell === "number" && Number.isFinite(cell)) return { value: cell, unit: null, factor: null };
  const text = textOf(cell);
  const figure = readFigure(text, decimal);
  if (figure !== null) return figure;
  if (isSpreadsheetError(text))
    return refuse(place, text, "a number: this is a formula's error, to be mended in the spreadsheet");
  const other = decimal === "." ? "," : ".";
  if (readFigure(text, other) !== null)
    return refuse(
      place,
      text,
      `a number with ${decimal === "." ? "a point" : "a comma"} as its decimal sign, as the table has it`,
    );
  if (/^[^\p{L}%‰]*\d\s*(?:%|‰|ppm)/iu.test(text))
    return refuse(place, text, "a figure in the unit of the row, or a percentage of the row's own estimate");
  if (/^[+-]?[\d.,]+\s?\(\d+\)/.test(tidied(text)))
    return refuse(place, text, "a number alone: the uncertainty in brackets belongs into a column of its own");
  return refuse(place, text, "a number, with or without a unit after it");
}

/** A divisor: a number, or a root such as √3, sqrt(3), 2√3. @throws {InputError} */
export function divisorOf(cell: Cell | undefined, place: string, decimal: DecimalMark): number {
  const text = textOf(cell);
  const root = rootIn(text) ?? rootIn(text.replace(/\s*\([^()]*\)$/, ""));
  if (root !== null) return root;
  const figure = figureOf(typeof cell === "string" ? text.replace(/^k\s*=\s*/i, "") : cell, place, decimal);
  const value = figure.unit === "%" ? figure.value / 100 : figure.value;
  if (!(value > 0)) refuse(place, text, "a divisor greater than 0, such as 2, 1.73 or √3");
  return value;
}

/** Spreadsheets without a sign for infinity have 1E+99, 1E+10 or 999999 in its place (common practice). */
const AS_GOOD_AS_INFINITE = 99_999;

/** Degrees of freedom: a number, or infinity in the usual spellings. @throws {InputError} */
export function degreesOfFreedomOf(cell: Cell | undefined, place: string, decimal: DecimalMark): number {
  const text = textOf(cell);
  if (isBlank(cell) || saysInfinite(text)) return Infinity;
  const { value } = figureOf(typeof cell === "string" ? text.replace(/^[>≥]\s*/, "") : cell, place, decimal);
  if (!(value > 0)) refuse(place, text, "degrees of freedom greater than 0, or ∞");
  return value >= AS_GOOD_AS_INFINITE ? Infinity : value;
}

/** True if two figures agree as rounded figures do: to half a percent. */
export const agrees = (a: number, b: number): boolean => Math.abs(a - b) <= 0.005 * Math.max(Math.abs(a), Math.abs(b));

/** Two printed digits leave up to 5 % open. */
export const agreesAsPrinted = (printed: number, own: number): boolean => Math.abs(printed - own) <= 0.05 * own;

/** A figure to as many digits as distinguish it. */
export const digits = (value: number): string => withMinus(String(Number(value.toPrecision(4))));

/** √(a² + b² + …). */
export const rootSum = (values: readonly number[]): number =>
  values.reduce((sum, value) => elementary.hypot(sum, value), 0);

import { elementary, readUnit, refuse } from "../../../engine/index.ts";
import type { Cell } from "../table/table.ts";
import { parseDecimal } from "../text/decimal.ts";

export const textOf = (cell: Cell | undefined): string =>
  cell === null || cell === undefined ? "" : String(cell).trim();

/** True for a cell that is empty or marks the absence of a value. */
export const isBlank = (cell: Cell | undefined): boolean =>
  /^[-–—]?$/.test(textOf(cell)) || /^n\/?a$/i.test(textOf(cell));

/** A figure, with the unit it carries in the cell itself. */
export interface CellFigure {
  readonly value: number;
  readonly unit: string | null;
  readonly mark: "." | "," | null;
}

/** Reads a figure, with a leading ± and a trailing unit allowed. @throws {InputError} */
export function figureOf(cell: Cell | undefined, place: string): CellFigure {
  if (typeof cell === "number" && Number.isFinite(cell)) return { value: cell, unit: null, mark: null };
  const parts = /^(?:±|\+\/-)?\s*([+\-−]?[\d.,]+(?:e[+-]?\d+)?)\s*(\S+(?:\s*[·*/]\s*\S+)*)?$/iu.exec(textOf(cell));
  const number = parts === null ? null : parseDecimal(parts[1]!);
  const unit = parts?.[2] ?? null;
  const isUnit = unit === null || (/[\p{L}°%‰]/u.test(unit) && readUnit(unit) !== null);
  if (number === null || !isUnit) return refuse(place, textOf(cell), "a number, with or without a unit after it");
  return { value: number.value, unit, mark: number.mark };
}

/** A divisor: a number, or a root such as √3, sqrt(3), 2√3. @throws {InputError} */
export function divisorOf(
  cell: Cell | undefined,
  place: string,
): { readonly value: number; readonly mark: "." | "," | null } {
  const root = /^(\d*)\s*[·*]?\s*(?:√|sqrt)\s*\(?\s*(\d+)\s*\)?$/i.exec(textOf(cell));
  if (root !== null) return { value: (root[1] === "" ? 1 : Number(root[1])) * Math.sqrt(Number(root[2])), mark: null };
  const { value, mark } = figureOf(typeof cell === "string" ? cell.replace(/^k\s*=\s*/i, "") : cell, place);
  if (!(value > 0)) refuse(place, textOf(cell), "a divisor greater than 0, such as 2, 1.73 or √3");
  return { value, mark };
}

/** Degrees of freedom: a number, or infinity in the usual spellings. @throws {InputError} */
export function degreesOfFreedomOf(cell: Cell | undefined, place: string): number {
  if (isBlank(cell) || /^(∞|inf|infinite|infinity|large|unendlich)$/i.test(textOf(cell))) return Infinity;
  const { value } = figureOf(cell, place);
  if (!(value > 0)) refuse(place, textOf(cell), "degrees of freedom greater than 0, or ∞");
  return value;
}

/** True if two figures agree as rounded figures do: to half a percent. */
export const agrees = (a: number, b: number): boolean => Math.abs(a - b) <= 0.005 * Math.max(Math.abs(a), Math.abs(b));

/** A figure to as many digits as distinguish it. */
export const digits = (value: number): string => String(Number(value.toPrecision(4)));

/** √(a² + b² + …). */
export const rootSum = (values: readonly number[]): number =>
  values.reduce((sum, value) => elementary.hypot(sum, value), 0);

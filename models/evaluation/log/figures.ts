import { refuse } from "../../../engine/index.ts";
import type { Cell } from "../table/table.ts";
import { parseDecimal, type DecimalMark } from "../text/decimal.ts";
import { readUnit, type ThermometerUnit } from "../text/units.ts";
import { isNoFigure, isNoReading } from "./no-reading.ts";

/** Reads the figures of one column: one decimal mark throughout, and one unit. */
export class FigureColumn {
  #mark: DecimalMark | null = null;
  #markRow = 0;
  readonly #noReading: readonly string[];
  /** Cells that stand for no reading, by how they are written, with how often. */
  readonly missing = new Map<string, number>();

  /** @param noReading further words that stand for no reading */
  constructor(noReading: readonly string[] = []) {
    this.#noReading = noReading;
  }

  /**
   * A figure, or `null` for a cell that is empty or stands for no reading.
   *
   * @param unit of the column; a cell may repeat it after the figure
   * @param place made only for a message
   * @throws {InputError} text, another unit, or another decimal mark than above
   */
  read(cell: Cell | undefined, unit: ThermometerUnit | null, row: number, place: () => string): number | null {
    if (cell === null || cell === undefined || cell === "") return null;
    if (typeof cell === "number") return isNoFigure(cell) ? this.#none(String(cell)) : cell;
    if (typeof cell !== "string") return refuse(place(), cell, "a number");
    const quick = quickNumber(cell);
    if (quick !== null) {
      if (this.#mark === "," && cell.includes(".")) this.#otherMark(cell, place);
      else if (this.#mark === null && cell.includes(".")) this.#take(".", row);
      return isNoFigure(quick) ? this.#none(cell) : quick;
    }
    const text = cell.trim();
    if (text === "") return null;
    if (isNoReading(text, this.#noReading)) return this.#none(text);
    const suffix = /^(.*?[\d.,])\s*([°ºΩ℃\p{L}]+)$/u.exec(text);
    const number = parseDecimal(suffix === null ? text : suffix[1]!);
    if (number === null) return refuse(place(), cell, "a number, or a word for no reading such as ---- or OVLD");
    if (suffix !== null && readUnit(suffix[2]!) !== unit) {
      refuse(place(), cell, `a number${unit === null ? " without a unit" : ` in ${unit}`}, as the rest of the column`);
    }
    if (number.mark !== null) {
      if (this.#mark !== null && this.#mark !== number.mark) this.#otherMark(cell, place);
      this.#take(number.mark, row);
    }
    return number.value;
  }

  #none(text: string): null {
    this.missing.set(text.trim(), (this.missing.get(text.trim()) ?? 0) + 1);
    return null;
  }

  #take(mark: DecimalMark, row: number): void {
    if (this.#mark === null) this.#markRow = row;
    this.#mark = mark;
  }

  #otherMark(cell: string, place: () => string): never {
    return refuse(
      place(),
      cell,
      `one decimal mark throughout: row ${this.#markRow} has ${this.#mark === "," ? "a comma" : "a point"}`,
    );
  }
}

/** The plain case without a regular expression: digits, a point, an exponent. */
function quickNumber(text: string): number | null {
  const first = text.codePointAt(0)!;
  if (!((first >= 48 && first <= 57) || first === 45 || first === 46 || first === 43) || text.length > 30) return null;
  const value = Number(text);
  if (!Number.isFinite(value)) return null;
  // Number() also takes 0x10 and the like, whose second sign is a letter.
  const second = text.codePointAt(1) ?? 48;
  return first === 48 && second > 64 && second !== 69 && second !== 101 ? null : value;
}

const SECONDS: ReadonlyMap<string, number> = new Map([
  ["s", 1],
  ["sec", 1],
  ["second", 1],
  ["seconds", 1],
  ["ms", 1e-3],
  ["min", 60],
  ["minute", 60],
  ["minutes", 60],
  ["h", 3600],
  ["hour", 3600],
  ["hours", 3600],
]);

/** Seconds in a unit of time, or `null`. */
export const secondsIn = (unit: string): number | null => SECONDS.get(unit.trim().toLowerCase()) ?? null;

import { refuse } from "../../../engine/index.ts";
import type { Cell } from "../table/table.ts";
import { parseDecimal, type DecimalMark } from "../text/decimal.ts";
import { parseInstant } from "../text/instant.ts";
import { readUnit, type ThermometerUnit } from "../text/units.ts";

/** Reads the figures of one column: one decimal mark throughout, and one unit. */
export class FigureColumn {
  #mark: DecimalMark | null = null;
  #markRow = 0;

  /**
   * A figure, or `null` for an empty cell.
   *
   * @param unit of the column; a cell may repeat it after the figure
   * @param place made only for a message
   * @throws {InputError} text, another unit, or another decimal mark than above
   */
  read(cell: Cell | undefined, unit: ThermometerUnit | null, row: number, place: () => string): number | null {
    if (cell === null || cell === undefined || cell === "") return null;
    if (typeof cell === "number") return cell;
    if (typeof cell !== "string") return refuse(place(), cell, "a number");
    const quick = quickNumber(cell);
    if (quick !== null) {
      if (this.#mark === "," && cell.includes(".")) this.#otherMark(cell, place);
      else if (this.#mark === null && cell.includes(".")) this.#take(".", row);
      return quick;
    }
    const text = cell.trim();
    if (text === "") return null;
    const suffix = /^(.*?[\d.,])\s*([°ºΩ℃\p{L}]+)$/u.exec(text);
    const number = parseDecimal(suffix === null ? text : suffix[1]!);
    if (number === null) return refuse(place(), cell, "a number");
    if (suffix !== null && readUnit(suffix[2]!) !== unit) {
      refuse(place(), cell, `a number${unit === null ? " without a unit" : ` in ${unit}`}, as the rest of the column`);
    }
    if (number.mark !== null) {
      if (this.#mark !== null && this.#mark !== number.mark) this.#otherMark(cell, place);
      this.#take(number.mark, row);
    }
    return number.value;
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

/** How a time column counts. */
export type Clock = { readonly kind: "elapsed"; readonly scale: number } | { readonly kind: "instants" };

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

/** Reads time stamps of one column, all of one kind. */
export class TimeColumn {
  #zoned: boolean | null = null;
  #numeric: boolean | null = null;
  #day = "";
  #daySeconds = 0;
  readonly #figures = new FigureColumn();
  readonly #scale: number;

  constructor(scale: number) {
    this.#scale = scale;
  }

  /** True once elapsed time has been read, false once dates have been. */
  get elapsed(): boolean | null {
    return this.#numeric;
  }

  /** Seconds. @throws {InputError} no time, or another kind of time than above */
  read(cell: Cell | undefined, row: number, place: () => string): number {
    if (typeof cell === "string" && this.#numeric !== true) {
      const quick = this.#sameDay(cell);
      if (quick !== null) return quick;
      const instant = parseInstant(cell);
      if (instant !== null) {
        if (this.#zoned !== null && this.#zoned !== instant.zoned) {
          refuse(
            place(),
            cell,
            this.#zoned ? "a time with its zone, as in the rows above" : "a time without a zone, as in the rows above",
          );
        }
        this.#zoned = instant.zoned;
        this.#numeric = false;
        if (!instant.zoned && cell.length === 19) this.#remember(cell, instant.seconds);
        return instant.seconds;
      }
      if (this.#numeric === false)
        refuse(place(), cell, "a date and time such as 2026-03-02T08:15:00, as in the rows above");
    }
    const value =
      typeof cell === "string" && /[^\d.,eE+\-−\s]/.test(cell) ? null : this.#figures.read(cell, null, row, place);
    if (value === null || !Number.isFinite(value)) {
      return refuse(
        place(),
        cell,
        "a date and time such as 2026-03-02T08:15:00 or 02.03.2026 08:15:00, or elapsed time as a number",
      );
    }
    if (this.#numeric === false) refuse(place(), cell, "a date and time, as in the rows above");
    this.#numeric = true;
    return value * this.#scale;
  }

  #remember(cell: string, seconds: number): void {
    this.#day = cell.slice(0, 11);
    this.#daySeconds =
      seconds - (Number(cell.slice(11, 13)) * 3600 + Number(cell.slice(14, 16)) * 60 + Number(cell.slice(17, 19)));
  }

  /** Most rows differ from the one above in the time of day only. */
  #sameDay(cell: string): number | null {
    if (cell.length !== 19 || this.#day === "" || !cell.startsWith(this.#day)) return null;
    let digits = 0;
    for (const at of [11, 12, 14, 15, 17, 18]) {
      const digit = cell.codePointAt(at)! - 48;
      if (!(digit >= 0 && digit <= 9)) return null;
      digits = digits * 10 + digit;
    }
    const hour = Math.floor(digits / 10000);
    const minute = Math.floor(digits / 100) % 100;
    const second = digits % 100;
    if (cell[13] !== ":" || cell[16] !== ":" || hour > 23 || minute > 59 || second > 60) return null;
    return this.#daySeconds + hour * 3600 + minute * 60 + second;
  }
}

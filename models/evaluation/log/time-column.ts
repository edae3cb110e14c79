import { refuse } from "../../../engine/index.ts";
import type { Cell } from "../table/table.ts";
import { parseStamp, type DateOrder } from "../text/stamp.ts";
import { FigureColumn } from "./figures.ts";

const HALF_DAY = 43_200;
const ACCEPTED = "a date and time such as 2026-03-02T08:15:00 or 02.03.2026 08:15:00, or elapsed time as a number";

export interface TimeOptions {
  /** Seconds in the unit of elapsed time. */
  readonly scale: number;
  /** Which number of a date such as 03/04/2026 is the day; `null` if that is not known. */
  readonly order: DateOrder | null;
  /** Seconds of the midnight that times without a date are counted from. */
  readonly day: number;
}

/** Reads time stamps of one column, all of one kind: dates, times of day that go on past midnight, or elapsed time. */
export class TimeColumn {
  #zoned: boolean | null = null;
  #kind: "dated" | "of-day" | "elapsed" | null = null;
  #day = "";
  #daySeconds = 0;
  #midnights = 0;
  #last = -Infinity;
  readonly #figures = new FigureColumn();
  readonly #options: TimeOptions;

  constructor(options: TimeOptions) {
    this.#options = options;
  }

  /** True once elapsed time has been read, false once dates or times of day have been. */
  get elapsed(): boolean | null {
    return this.#kind === null ? null : this.#kind === "elapsed";
  }

  /** Whether the stamps have times of day alone. */
  get ofDay(): boolean {
    return this.#kind === "of-day";
  }

  /** Seconds. @throws {InputError} no time, or another kind of time than above */
  read(cell: Cell | undefined, row: number, place: () => string): number {
    if (typeof cell === "string" && this.#kind !== "elapsed") {
      const quick = this.#sameDay(cell);
      if (quick !== null) return quick;
      const stamp = parseStamp(cell, this.#options.order);
      if (stamp === "ambiguous")
        return refuse(place(), cell, "day-first or month-first as log.dates of the description: the date may be two");
      if (stamp !== null) {
        if (this.#zoned !== null && this.#zoned !== stamp.zoned) {
          refuse(
            place(),
            cell,
            this.#zoned ? "a time with its zone, as in the rows above" : "a time without a zone, as in the rows above",
          );
        }
        const kind = stamp.dated ? "dated" : "of-day";
        if (this.#kind !== null && this.#kind !== kind)
          refuse(
            place(),
            cell,
            this.#kind === "dated" ? "a date and time, as in the rows above" : "a time alone, as in the rows above",
          );
        this.#zoned = stamp.zoned;
        this.#kind = kind;
        if (kind === "of-day") return this.#ofDay(stamp.seconds);
        if (!stamp.zoned && CLOCK_AT_THE_END.test(cell)) this.#remember(cell, stamp.seconds);
        return stamp.seconds;
      }
      if (this.#kind !== null)
        refuse(place(), cell, "a date and time such as 2026-03-02T08:15:00, as in the rows above");
    }
    const value =
      typeof cell === "string" && /[^\d.,eE+\-−\s]/.test(cell) ? null : this.#figures.read(cell, null, row, place);
    if (value === null || !Number.isFinite(value)) return refuse(place(), cell, ACCEPTED);
    if (this.#kind === "dated" || this.#kind === "of-day")
      refuse(place(), cell, "a date and time, as in the rows above");
    this.#kind = "elapsed";
    return value * this.#options.scale;
  }

  /** A time of day that is earlier by more than half a day belongs to the next one. */
  #ofDay(seconds: number): number {
    if (seconds < this.#last - HALF_DAY && this.#last <= 86_400) this.#midnights++;
    this.#last = seconds;
    return this.#options.day + 86_400 * this.#midnights + seconds;
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

const CLOCK_AT_THE_END = /^.{11}\d{2}:\d{2}:\d{2}$/;

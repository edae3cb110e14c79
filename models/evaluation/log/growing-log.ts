import { InputError } from "../../../engine/index.ts";
import { CsvParser } from "../table/csv.ts";
import type { TableRow } from "../table/table.ts";
import { readUnit, splitHeading, type ThermometerUnit } from "../text/units.ts";
import { duration } from "../check.ts";
import { withMinus } from "../text/minus.ts";
import { FigureColumn, secondsIn } from "./figures.ts";
import { cellText, HEAD_ROWS, isBlank } from "./heading.ts";
import { proposeLog, type LogProposal, type ProposedThermometer } from "./proposal.ts";
import type { LogSettings } from "./request.ts";
import { toCelsius, type ResistanceThermometer } from "./resistance.ts";
import { separatorOf } from "./rows.ts";
import { TimeColumn } from "./time-column.ts";

/** One reading as it is written. */
export interface Reading {
  readonly thermometer: string;
  /** s */
  readonly time: number;
  /** °C */
  readonly value: number;
}

/** What a person states of a log that grows, beside what it shows. */
export interface GrowingLogOptions extends Pick<LogSettings, "dates" | "day" | "noReading"> {
  /** Thermometers to follow, by heading or letter; default: all. */
  readonly columns?: readonly string[] | undefined;
  /** Unit of readings whose heading has none. */
  readonly unit?: string | undefined;
  readonly timeUnit?: string | undefined;
  readonly resistance?: ResistanceThermometer | undefined;
}

interface Channel {
  readonly thermometer: string;
  readonly index: number;
  readonly figures: FigureColumn;
  readonly unit: ThermometerUnit;
  readonly convert: (value: number) => number;
}

/** Data rows that must be there before the columns are told. */
const ENOUGH = 2;

/**
 * A log that grows, text by text: only lines that have ended are read, so that one the logger is still writing waits. A row
 * that cannot be used is counted and told, and the next one is read: whoever watches a bath wants the readings that there are.
 */
export class GrowingLog {
  readonly #name: string;
  readonly #options: GrowingLogOptions;
  #rest = "";
  #head = "";
  #separator = "";
  #row = 0;
  #channels: readonly Channel[] = [];
  #time: TimeColumn | null = null;
  #timeColumn = 0;
  #timeOfDay = -1;
  #last = -Infinity;
  #interval = 1;
  #offset = 0;
  #held: (readonly Reading[])[] = [];
  #sameTime = false;
  #headings: readonly string[] = [];
  readonly #notes: string[] = [];
  #leftOut = 0;
  #lastLeftOut: string | null = null;

  constructor(name: string, options: GrowingLogOptions = {}) {
    this.#name = name;
    this.#options = options;
  }

  /** What was noticed: once each. */
  get notes(): readonly string[] {
    return this.#notes;
  }

  /** Rows that could not be used, with the reason of the latest. */
  get leftOut(): { readonly rows: number; readonly latest: string | null } {
    return { rows: this.#leftOut, latest: this.#lastLeftOut };
  }

  get thermometers(): readonly string[] {
    return this.#channels.map(({ thermometer }) => thermometer);
  }

  /**
   * Readings of the lines that this text ends.
   *
   * @throws {InputError} once the columns can be told: none that is asked for, or a unit or an order of dates to be stated
   */
  push(text: string): readonly Reading[] {
    this.#rest += text.replaceAll("\0", "");
    const end = this.#rest.lastIndexOf("\n") + 1;
    if (end === 0) return [];
    const whole = this.#rest.slice(0, end);
    this.#rest = this.#rest.slice(end);
    if (this.#time !== null) return this.#lines(whole).flatMap((row) => this.#take(row));
    this.#head += whole;
    return this.#open();
  }

  #open(): readonly Reading[] {
    this.#separator = separatorOf(this.#head);
    this.#row = 0;
    const rows =
      this.#separator === " " ? this.#lines(this.#head) : new CsvParser(this.#name, this.#separator).push(this.#head);
    this.#row = this.#head.split("\n").length - 1;
    const proposal = proposeLog(rows);
    if (proposal.time === null || proposal.rows < ENOUGH || proposal.thermometers.length === 0) {
      if (rows.length > HEAD_ROWS)
        throw new InputError([
          { place: this.#name, value: `${rows.length} rows`, accepted: "rows with a time and readings" },
        ]);
      return [];
    }
    this.#settle(proposal);
    this.#head = "";
    return rows.filter(({ row }) => row >= proposal.firstRow).flatMap((row) => this.#take(row));
  }

  #settle(proposal: LogProposal): void {
    const { columns, ambiguous, clock } = proposal;
    const {
      dates = proposal.dates,
      day = 0,
      timeUnit = proposal.timeUnit,
      columns: asked,
      unit: stated,
      resistance,
    } = this.#options;
    const fail = (place: string, value: string, accepted: string): never => {
      throw new InputError([{ place, value, accepted }]);
    };
    if (ambiguous !== null && dates === null)
      fail(
        `${this.#name}, column ${proposal.time}`,
        ambiguous,
        "--dates day-first or --dates month-first: the date may be two",
      );
    // A heading goes before a letter: thermometers are called A and B, and the time stands in column A.
    const placesOf = (name: string): readonly number[] => {
      const headed = columns.flatMap(({ heading }, i) => (heading === name || plain(heading) === name ? [i] : []));
      return headed.length > 0 ? headed : columns.flatMap(({ letter }, i) => (letter === name ? [i] : []));
    };
    this.#timeColumn = columns.findIndex(({ kind }) => kind === "time");
    this.#timeOfDay = columns.findIndex(({ kind }) => kind === "time of day");
    const found: readonly ProposedThermometer[] =
      asked === undefined
        ? proposal.thermometers
        : asked.map((name) => {
            const places = placesOf(name).filter((i) => columns[i]!.kind === "figures" || columns[i]!.kind === "empty");
            const { letter, unit } = columns[places[0] ?? 0]!;
            if (places.length === 0)
              fail("--thermometer", name, `one of ${proposal.thermometers.map((one) => one.name).join(", ")}`);
            if (places.length > 1)
              fail("--thermometer", name, `a letter, ${places.map((i) => columns[i]!.letter).join(" or ")}`);
            return { name, column: letter, unit };
          });
    this.#channels = found.map(({ name, column, unit }) => {
      if (column === null)
        fail(
          this.#name,
          "a column of names",
          "a column for each thermometer: a log with one reading a row is for trialband survey",
        );
      const known = unit ?? (stated === undefined ? null : readUnit(stated));
      if (known === null)
        return fail(`${this.#name}, column ${name}`, stated ?? "no unit", "--unit °C, K, mK, °F or Ω");
      if (known === "Ω" && resistance?.nominalResistance === undefined)
        fail(`${this.#name}, column ${name}`, "Ω", "--r0 with R₀ in Ω of thermometers that are logged as resistances");
      const index = asked === undefined ? placesOf(column!)[0]! : columns.findIndex(({ letter }) => letter === column);
      return {
        // Of two with one heading each has its letter behind it.
        thermometer: found.some((other) => other.name === name && other.column !== column)
          ? `${name} (${column})`
          : name,
        index,
        figures: new FigureColumn(this.#options.noReading),
        unit: known,
        convert: toCelsius(known, resistance ?? {}),
      };
    });
    this.#headings = columns.map(({ heading }) => heading);
    const scale = timeUnit === null || timeUnit === undefined ? 1 : (secondsIn(timeUnit) ?? 1);
    if (clock === "elapsed" && timeUnit === null) this.#notes.push("elapsed time has no unit: read as seconds");
    this.#time = new TimeColumn({ scale, order: dates, day });
  }

  /** Rows of lines that have ended, each on its own: a stray quote costs its line alone. */
  #lines(text: string): readonly TableRow[] {
    return text
      .split(/\r?\n/)
      .slice(0, -1)
      .flatMap((line): readonly TableRow[] => {
        const row = ++this.#row;
        if (line.trim() === "") return [];
        if (this.#separator === " ") return [{ row, cells: line.trim().split(/ +/) }];
        if (!line.includes('"')) return [{ row, cells: line.split(this.#separator) }];
        try {
          const parser = new CsvParser(this.#name, this.#separator);
          return [...parser.push(`${line}\n`), ...parser.end()].map(({ cells }) => ({ row, cells }));
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          this.#leaveOut(`row ${row}: a quote that is not closed or stands within a cell`);
          return [];
        }
      });
  }

  #take({ row, cells }: TableRow): readonly Reading[] {
    if (isBlank(cells) || plain(this.#headings[this.#timeColumn]!) === plain(cellText(cells[this.#timeColumn])))
      return [];
    let released: readonly Reading[] = [];
    try {
      const stamp =
        this.#timeOfDay < 0
          ? cells[this.#timeColumn]
          : `${cellText(cells[this.#timeColumn])} ${cellText(cells[this.#timeOfDay])}`;
      const place = (): string => `row ${row}`;
      const written = this.#time!.read(stamp, row, place) + this.#offset;
      const again = written === this.#last;
      const before = this.#last;
      const time = again ? written : this.#straight(written, row);
      if (!again) released = this.#release(before, time);
      const readings = this.#readings(cells, row, time);
      if (!again) return [...released, ...readings];
      if (!this.#sameTime) this.#notes.push(`several rows have one time, first row ${row}: spread up to the next time`);
      this.#sameTime = true;
      this.#held.push(readings);
      return [];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const [problem] = error.problems;
      this.#leaveOut(`${problem!.place}: ${problem!.value}`);
      return released;
    }
  }

  /** What the row has of each thermometer: one that cannot be used takes nothing from the others. */
  #readings(cells: TableRow["cells"], row: number, time: number): readonly Reading[] {
    let bad: string | null = null;
    const readings = this.#channels.flatMap(({ thermometer, index, figures, unit, convert }) => {
      const place = `row ${row}, ${thermometer}`;
      try {
        const found = figures.read(cells[index], unit, row, () => place);
        if (found === null) return [];
        const value = convert(found);
        if (value >= -273.15 && value < 4000) return [{ thermometer, time, value }];
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
      }
      bad = `${place}: ${withMinus(cellText(cells[index]))}`;
      return [];
    });
    if (bad !== null) this.#leaveOut(bad);
    return readings;
  }

  #leaveOut(reason: string): void {
    this.#leftOut++;
    this.#lastLeftOut = reason;
  }

  /** Rows that had the time of the row before them, spread evenly up to the next time. */
  #release(before: number, time: number): readonly Reading[] {
    const step = (time - before) / (this.#held.length + 1);
    const spread = this.#held.flatMap((row, i) =>
      row.map((reading) => ({ ...reading, time: before + (i + 1) * step })),
    );
    this.#held = [];
    return spread;
  }

  /** A clock that was set back goes on from where it was: times before the step are taken as right. */
  #straight(written: number, row: number): number {
    let time = written;
    if (time < this.#last) {
      const back = this.#last - time;
      const shift = back + this.#interval;
      this.#offset += shift;
      time += shift;
      this.#notes.push(`the clock went back by ${duration(back)} at row ${row}: what follows joins what was before`);
    } else if (this.#last > -Infinity) this.#interval = time - this.#last;
    this.#last = time;
    return time;
  }
}

const plain = (heading: string): string => splitHeading(heading).name;

import { InputError, refuse } from "../../../engine/index.ts";
import type { Cell, Table, TableRow } from "../table/table.ts";
import { decimalsWritten } from "../text/decimal.ts";
import { showInstant } from "../text/instant.ts";
import { dateOrderOf, type DateOrder } from "../text/stamp.ts";
import { readUnit, splitHeading, UNITS_ACCEPTED, type ThermometerUnit } from "../text/units.ts";
import { describeStep, spread, straighten, type ClockStep } from "./clock.ts";
import { checkUnits, type LogColumns } from "./columns.ts";
import { FigureColumn } from "./figures.ts";
import { cellText, findHeading, HEAD_ROWS, isBlank } from "./heading.ts";
import { NumberList } from "./number-list.ts";
import { MOST_READINGS, type Series, type SeriesRequest } from "./request.ts";
import { toCelsius } from "./resistance.ts";
import type { ThermometerLog } from "./thermometer-log.ts";
import { TimeColumn } from "./time-column.ts";

/**
 * Reads a log in one pass, in memory bounded by the readings kept.
 *
 * @throws {InputError} headings that do not fit, or the first cell that cannot be used, with file, row, column and value
 */
export async function readSeries(table: Table, request: SeriesRequest): Promise<Series> {
  const head: TableRow[] = [];
  let reader: SeriesReader | null = null;
  for await (const piece of table.pieces) {
    for (const row of piece) {
      if (reader !== null) reader.take(row);
      else if (head.push(row) === HEAD_ROWS) reader = begin(head, request, table.name);
    }
  }
  reader ??= begin(head, request, table.name);
  return reader.finish(table.notes);
}

/** A reader that has taken what lies below the headings among the first rows. */
function begin(head: readonly TableRow[], request: SeriesRequest, file: string): SeriesReader {
  const { columns, below, above } = findHeading(head, request, request.headingRow, file);
  const stamps = head.slice(below).map(({ cells }) => cellText(cells[columns.time]));
  const order = request.dates ?? dateOrderOf(stamps);
  const reader = new SeriesReader(file, columns, request, order, above);
  for (const row of head.slice(below)) reader.take(row);
  return reader;
}

interface Channel {
  readonly thermometer: string;
  readonly figures: FigureColumn;
  readonly times: NumberList;
  readonly values: NumberList;
  unit: ThermometerUnit | null;
  convert: ((value: number) => number) | null;
  last: number;
  lastRow: number;
}

class SeriesReader {
  readonly #file: string;
  readonly #columns: LogColumns;
  readonly #request: SeriesRequest;
  readonly #time: TimeColumn;
  readonly #channels = new Map<string, Channel>();
  readonly #wide: readonly (readonly [Channel, number])[];
  readonly #most: number;
  readonly #notes: string[] = [];
  /** Whether times are put right once all are there: what is kept can only be told then. */
  readonly #mended: boolean;
  readonly #steps: ClockStep[] = [];
  /** Times of the rows of such a log with a column for each thermometer: readings then refer to their row. */
  readonly #rowTimes = new NumberList();
  #repeatedHeadings = 0;
  #rows = 0;
  #kept = 0;
  #segment = 0;
  #last = -Infinity;
  #lastRow = 0;
  #above: readonly Cell[] | null = null;

  constructor(file: string, columns: LogColumns, request: SeriesRequest, order: DateOrder | null, above: number) {
    this.#file = file;
    this.#columns = columns;
    this.#request = request;
    this.#time = new TimeColumn({ scale: columns.timeScale, order, day: request.day ?? 0 });
    this.#most = request.mostReadings ?? MOST_READINGS;
    this.#mended = request.clock !== undefined || request.sameTime !== undefined;
    if (above > 0) this.#notes.push(`headings in row ${columns.headingRow}, below ${above} lines of the instrument`);
    if (order !== null && request.dates === undefined)
      this.#notes.push(`dates read ${order === "day-first" ? "day" : "month"} first, as a day beyond the 12th shows`);
    const { layout } = columns;
    for (const thermometer of Object.keys(request.thermometers)) {
      const unit =
        layout.kind === "long"
          ? layout.units[thermometer]!
          : layout.columns.find((column) => column.thermometer === thermometer)!.unit;
      this.#channels.set(thermometer, {
        thermometer,
        figures: new FigureColumn(request.noReading),
        times: new NumberList(),
        values: new NumberList(),
        unit,
        convert: null,
        last: -Infinity,
        lastRow: 0,
      });
    }
    this.#wide =
      layout.kind === "wide"
        ? layout.columns.map(({ thermometer, index }) => [this.#channels.get(thermometer)!, index] as const)
        : [];
    if (layout.kind === "wide") this.#checkUnits();
  }

  #place(row: number, column: number): string {
    return `${this.#file}, row ${row}, column ${this.#columns.headings[column] || column + 1}`;
  }

  take(row: TableRow): void {
    if (isBlank(row.cells)) return;
    if (this.#isHeading(row.cells)) {
      this.#repeatedHeadings++;
      return;
    }
    if (row.unfinished === undefined) this.#row(row);
    else this.#unfinished(row);
    this.#above = row.cells;
  }

  /** A logger that was started again writes its headings once more. */
  #isHeading(cells: readonly Cell[]): boolean {
    const { headings, time, headingRow } = this.#columns;
    const plain = splitHeading(headings[time]!).name;
    const here = cellText(cells[time]);
    return headingRow > 0 && here !== "" && (here === headings[time] || here === plain);
  }

  /** A last line that the logger was still writing: it counts only if it is as long as the one above. */
  #unfinished({ row, cells }: TableRow): void {
    const note = `row ${row}, the last, ends half-written and was left out`;
    const above = this.#above;
    const last = cells.findLastIndex((cell) => cellText(cell) !== "");
    const shorter =
      cells.length < this.#columns.headings.length ||
      (above !== null && decimalsWritten(cellText(cells[last])) < decimalsWritten(cellText(above[last])));
    if (shorter && this.#isText()) {
      this.#notes.push(note);
      return;
    }
    try {
      this.#row({ row, cells });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.#notes.push(note);
    }
  }

  #row({ row, cells }: TableRow): void {
    const { headings, time: timeColumn, timeOfDay, layout } = this.#columns;
    const surplus =
      cells.length > headings.length && cells.slice(headings.length).some((cell) => cellText(cell) !== "");
    if (surplus || (cells.length < headings.length && this.#isText())) {
      refuse(
        `${this.#file}, row ${row}`,
        `${cells.length} cells: ${cells.slice(0, 8).join(" | ")}`,
        `${headings.length} cells as in the headings; decimal commas need semicolons or tabs between cells, or quotes`,
      );
    }
    this.#rows++;
    const stamp: Cell | undefined =
      timeOfDay === null ? cells[timeColumn] : `${cellText(cells[timeColumn])} ${cellText(cells[timeOfDay])}`;
    const seconds = this.#time.read(stamp, row, () => this.#place(row, timeColumn));
    if (layout.kind === "long") this.#long(layout, row, cells, seconds);
    else {
      this.#order(row, seconds, stamp);
      const time = this.#mended ? this.#rowTimes.length : seconds;
      if (this.#mended) this.#rowTimes.push(seconds);
      for (const [channel, index] of this.#wide) this.#reading(channel, row, index, cells[index], time);
    }
  }

  /** A text table has every cell of every row; a spreadsheet leaves empty ones at the end out. */
  #isText(): boolean {
    return !/\.xlsx$/i.test(this.#file);
  }

  #order(row: number, seconds: number, stamp: Cell | undefined): void {
    this.#after(seconds, this.#last, this.#lastRow, row, stamp, "");
    this.#last = seconds;
    this.#lastRow = row;
  }

  #after(seconds: number, last: number, lastRow: number, row: number, stamp: Cell | undefined, whose: string): void {
    if (seconds > last) return;
    const place = this.#place(row, this.#columns.time);
    if (seconds === last) {
      if (this.#request.sameTime === "spread") return;
      refuse(
        place,
        stamp,
        `a time${whose} that is not in row ${lastRow} already: time stamps must not repeat, or sameTime: spread of the log`,
      );
    }
    if (this.#request.clock !== undefined) {
      this.#steps.push({ row, from: last, to: seconds });
      return;
    }
    refuse(
      place,
      stamp,
      `a time${whose} after row ${lastRow}, ${showInstant(last)}: time stamps must increase ` +
        `(was the clock set back? Then clock: before or after of the log states which times are right)`,
    );
  }

  #long(layout: LogColumns["layout"] & { kind: "long" }, row: number, cells: readonly Cell[], seconds: number): void {
    const channel = this.#channels.get(String(cells[layout.name] ?? "").trim());
    const stamp = cells[this.#columns.time];
    if (this.#request.oneAtATime === true) this.#order(row, seconds, stamp);
    // Other instruments of the same log are none of ours.
    if (channel === undefined) return;
    this.#after(seconds, channel.last, channel.lastRow, row, stamp, ` of ${channel.thermometer}`);
    channel.last = seconds;
    channel.lastRow = row;
    if (layout.unitColumn !== null) this.#unit(channel, cells[layout.unitColumn], row, layout.unitColumn);
    this.#reading(channel, row, layout.value, cells[layout.value], seconds);
  }

  #unit(channel: Channel, cell: Cell | undefined, row: number, column: number): void {
    const text = String(cell ?? "").trim();
    const known = readUnit(text);
    if (known === null) refuse(this.#place(row, column), text, UNITS_ACCEPTED);
    if (channel.unit !== null && channel.unit !== known) {
      refuse(
        this.#place(row, column),
        text,
        `${channel.unit}, the unit of ${channel.thermometer} so far: one unit for each thermometer`,
      );
    }
    channel.unit = known;
  }

  #reading(channel: Channel, row: number, column: number, cell: Cell | undefined, seconds: number): void {
    const value = channel.figures.read(cell, channel.unit, row, () => this.#place(row, column));
    if (value === null) return;
    if (!this.#mended && !this.#wanted(seconds)) return;
    channel.convert ??= toCelsius(channel.unit!, this.#request.thermometers[channel.thermometer]!);
    let converted: number;
    try {
      converted = channel.convert(value);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return refuse(this.#place(row, column), cell, error.problems[0]!.accepted);
    }
    if (channel.unit !== "mK" && !(converted >= -273.15 && converted < 4000)) {
      refuse(
        this.#place(row, column),
        cell,
        `a temperature that can be: from absolute zero to 4000 °C, in ${channel.unit}`,
      );
    }
    if (++this.#kept > this.#most) {
      refuse(
        `${this.#file}, row ${row}`,
        `more than ${this.#most} readings`,
        "steps that take less of the log, or a log with a longer interval",
      );
    }
    channel.times.push(seconds);
    channel.values.push(converted);
  }

  /** Times come in order, so one moving index serves. */
  #wanted(seconds: number): boolean {
    const { keep } = this.#request;
    if (keep === undefined) return true;
    while (this.#segment > 0 && seconds < keep[this.#segment]!.from) this.#segment--;
    while (this.#segment < keep.length - 1 && seconds > keep[this.#segment]!.to) this.#segment++;
    const at = keep[this.#segment];
    return at !== undefined && seconds >= at.from && seconds <= at.to;
  }

  #checkUnits(): Record<string, ThermometerUnit> {
    const units = Object.fromEntries(
      [...this.#channels.values()].flatMap(({ thermometer, unit }) => (unit === null ? [] : [[thermometer, unit]])),
    );
    checkUnits(units, this.#request, `${this.#file}, row ${this.#columns.headingRow}`);
    return units;
  }

  finish(notes: readonly string[]): Series {
    const units = this.#checkUnits();
    const rowTimes = this.#rowTimes.take();
    let spreadRows = rowTimes.length === 0 ? 0 : this.#mend(rowTimes);
    const logs = [...this.#channels.values()].map(({ thermometer, times: listed, values: read }) => {
      const times = listed.take();
      const values = read.take();
      if (this.#mended && rowTimes.length > 0) times.forEach((row, i) => (times[i] = rowTimes[row]!));
      else if (this.#mended) spreadRows = Math.max(spreadRows, this.#mend(times));
      const log = this.#mended ? this.#cut({ thermometer, times, values }) : { thermometer, times, values };
      if (log.times.length === 0) {
        const outside = this.#request.keep === undefined ? "" : " within the steps of the description";
        refuse(
          `${this.#file}, ${thermometer}`,
          `${this.#rows} rows, no reading${outside}`,
          "readings of every thermometer named",
        );
      }
      return log;
    });
    return {
      logs,
      rows: this.#rows,
      readings: logs.reduce((sum, { times }) => sum + times.length, 0),
      units,
      notes: [
        ...notes,
        ...this.#notes,
        ...(this.#repeatedHeadings === 0
          ? []
          : [`the headings stand ${this.#repeatedHeadings} more times: the logger was started again`]),
        ...this.#steps.map(
          (step) =>
            `${describeStep(step)}: times ${this.#request.clock} it were taken as right, and the others moved to join them`,
        ),
        ...(spreadRows === 0
          ? []
          : [`${spreadRows} rows under a time stamp of the row above were spread up to the next`]),
        ...[...this.#channels.values()].flatMap(({ thermometer, figures: { missing } }) =>
          [...missing].map(([word, count]) => `${thermometer}: ${count} × ${word}, no reading`),
        ),
        ...(this.#time.ofDay && this.#request.day === undefined
          ? [
              `time column ${this.#columns.headings[this.#columns.time]} has no date: counted from the midnight before the first row`,
            ]
          : []),
        ...(this.#time.elapsed === true && !this.#columns.timeUnitKnown
          ? [`time column ${this.#columns.headings[this.#columns.time]} has no unit: read as seconds`]
          : []),
        ...Object.entries(units)
          .filter(([, unit]) => unit !== "°C")
          .map(([name, unit]) => `${name} converted from ${unit}`),
      ],
    };
  }

  /** Puts right the times of a clock that was set back or shows too little. @returns rows that were spread */
  #mend(times: Float64Array): number {
    const { clock, sameTime } = this.#request;
    const intervals = Float64Array.from(times.subarray(1), (time, i) => time - times[i]!)
      .filter((interval) => interval > 0)
      .sort();
    if (clock !== undefined) straighten(times, clock, intervals[Math.floor(intervals.length / 2)] ?? 1);
    return sameTime === "spread" ? spread(times) : 0;
  }

  /** The readings of a mended log that are asked for. */
  #cut(log: ThermometerLog): ThermometerLog {
    if (this.#request.keep === undefined) return log;
    this.#segment = 0;
    const chosen = Array.from(log.times.keys()).filter((i) => this.#wanted(log.times[i]!));
    return {
      thermometer: log.thermometer,
      times: Float64Array.from(chosen, (i) => log.times[i]!),
      values: Float64Array.from(chosen, (i) => log.values[i]!),
    };
  }
}

import { InputError, refuse } from "../../../engine/index.ts";
import type { Cell, Table, TableRow } from "../table/table.ts";
import { showInstant } from "../text/instant.ts";
import { celsius, readUnit, UNITS_ACCEPTED, type ThermometerUnit } from "../text/units.ts";
import { checkUnits, logColumns, type ColumnRequest, type LogColumns } from "./columns.ts";
import { FigureColumn, TimeColumn } from "./figures.ts";
import { NumberList } from "./number-list.ts";
import type { ThermometerLog } from "./thermometer-log.ts";

/** Most readings kept of one log: 16 bytes each. */
export const MOST_READINGS = 10_000_000;

export interface SeriesRequest extends ColumnRequest {
  /** Times to keep, s; readings outside are checked and dropped. Default: all. */
  readonly keep?: readonly { readonly from: number; readonly to: number }[] | undefined;
  /** True where no two readings may share a time, even of different thermometers. */
  readonly oneAtATime?: boolean | undefined;
  readonly mostReadings?: number | undefined;
}

/** Time series of a log, in °C. */
export interface Series {
  readonly logs: readonly ThermometerLog[];
  /** Rows below the headings. */
  readonly rows: number;
  /** Readings kept. */
  readonly readings: number;
  readonly units: Readonly<Record<string, ThermometerUnit>>;
  readonly notes: readonly string[];
}

/**
 * Reads a log in one pass, in memory bounded by the readings kept.
 *
 * @throws {InputError} headings that do not fit, or the first cell that cannot be used, with file, row, column and value
 */
export async function readSeries(table: Table, request: SeriesRequest): Promise<Series> {
  let reader: SeriesReader | null = null;
  for await (const piece of table.pieces) {
    for (const row of piece) {
      if (reader !== null) reader.take(row);
      else if (row.cells.filter((cell) => cell !== null && cell !== "").length > 1) {
        reader = new SeriesReader(table.name, logColumns(row, request, table.name), request);
      }
    }
  }
  if (reader === null) return refuse(table.name, "no row of headings", "a row of headings and rows below it");
  return reader.finish(table.notes);
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
  #rows = 0;
  #kept = 0;
  #segment = 0;
  #last = -Infinity;
  #lastRow = 0;

  constructor(file: string, columns: LogColumns, request: SeriesRequest) {
    this.#file = file;
    this.#columns = columns;
    this.#request = request;
    this.#time = new TimeColumn(columns.timeScale);
    this.#most = request.mostReadings ?? MOST_READINGS;
    const { layout } = columns;
    for (const thermometer of Object.keys(request.thermometers)) {
      const unit =
        layout.kind === "long"
          ? layout.units[thermometer]!
          : layout.columns.find((column) => column.thermometer === thermometer)!.unit;
      this.#channels.set(thermometer, {
        thermometer,
        figures: new FigureColumn(),
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

  take({ row, cells }: TableRow): void {
    const { headings, time, timeOfDay, layout } = this.#columns;
    if (cells.every((cell) => cell === null || cell === "")) return;
    const surplus =
      cells.length > headings.length && cells.slice(headings.length).some((cell) => cell !== null && cell !== "");
    if (surplus || (cells.length < headings.length && this.#isText())) {
      refuse(
        `${this.#file}, row ${row}`,
        `${cells.length} cells: ${cells.slice(0, 8).join(" | ")}`,
        `${headings.length} cells as in the headings; decimal commas need semicolons or tabs between cells, or quotes`,
      );
    }
    this.#rows++;
    const stamp: Cell | undefined =
      timeOfDay === null ? cells[time] : `${String(cells[time] ?? "").trim()} ${String(cells[timeOfDay] ?? "").trim()}`;
    const seconds = this.#time.read(stamp, row, () => this.#place(row, time));
    if (layout.kind === "long") this.#long(layout, row, cells, seconds);
    else {
      this.#order(row, seconds, stamp);
      for (const [channel, index] of this.#wide) this.#reading(channel, row, index, cells[index], seconds);
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
    if (seconds === last)
      refuse(place, stamp, `a time${whose} that is not in row ${lastRow} already: time stamps must not repeat`);
    refuse(
      place,
      stamp,
      `a time${whose} after row ${lastRow}, ${showInstant(last)}: time stamps must increase (was the clock set back?)`,
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
    if (!this.#wanted(seconds)) return;
    channel.convert ??= celsius(channel.unit!, this.#request.thermometers[channel.thermometer]!.nominalResistance);
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
    const logs = [...this.#channels.values()].map(({ thermometer, times, values }) => {
      if (times.length === 0) {
        const outside = this.#request.keep === undefined ? "" : " within the steps of the description";
        refuse(
          `${this.#file}, ${thermometer}`,
          `${this.#rows} rows, no reading${outside}`,
          "readings of every thermometer named",
        );
      }
      return { thermometer, times: times.take(), values: values.take() };
    });
    return {
      logs,
      rows: this.#rows,
      readings: this.#kept,
      units,
      notes: [
        ...notes,
        ...(this.#time.elapsed === true && !this.#columns.timeUnitKnown
          ? [`time column ${this.#columns.headings[this.#columns.time]} has no unit: read as seconds`]
          : []),
        ...Object.entries(units)
          .filter(([, unit]) => unit !== "°C")
          .map(([name, unit]) => `${name} converted from ${unit}`),
      ],
    };
  }
}

import type { Cell, TableRow } from "../table/table.ts";
import { parseDecimal } from "../text/decimal.ts";
import { dateOrderOf, parseStamp, type DateOrder } from "../text/stamp.ts";
import { readUnit, splitHeading, type ThermometerUnit } from "../text/units.ts";
import type { ClockStep } from "./clock.ts";
import { isChannelHeading, isTimeHeading, isValueHeading, letterOf } from "./columns.ts";
import { secondsIn } from "./figures.ts";
import { cellText, HEAD_ROWS, headingsWithUnits, isBlank, isUnits } from "./heading.ts";
import { isNoFigure, isNoReading } from "./no-reading.ts";
import { TimeColumn } from "./time-column.ts";

/** What a column of a log looks like. */
export interface ProposedColumn {
  /** As spreadsheets have it. */
  readonly letter: string;
  /** With its unit; the letter if there are no headings. */
  readonly heading: string;
  readonly kind: "time" | "time of day" | "figures" | "text" | "empty";
  readonly unit: ThermometerUnit | null;
  readonly figures: number;
  readonly noReadings: number;
  /** Cells that are neither, with the row of the first. */
  readonly others: number;
  readonly firstOther: { readonly row: number; readonly text: string } | null;
}

/** A thermometer that a log seems to have. */
export interface ProposedThermometer {
  readonly name: string;
  /** Heading or letter; `null` if a column of names tells the thermometers apart. */
  readonly column: string | null;
  readonly unit: ThermometerUnit | null;
}

/** How a log seems to be written, and what only a person can tell. */
export interface LogProposal {
  /** Row in the file; 0 if there is none. */
  readonly headingRow: number;
  /** First row of readings in the file. */
  readonly firstRow: number;
  readonly rows: number;
  readonly columns: readonly ProposedColumn[];
  /** Headings or letters of the time columns; `null` if none looks like one. */
  readonly time: string | null;
  readonly timeOfDay: string | null;
  readonly clock: "dated" | "of-day" | "elapsed" | null;
  /** Of elapsed time, if the heading shows it. */
  readonly timeUnit: string | null;
  readonly dates: DateOrder | null;
  /** A date that may be two, if none shows which. */
  readonly ambiguous: string | null;
  readonly thermometers: readonly ProposedThermometer[];
  /** Where the clock went back. */
  readonly steps: readonly ClockStep[];
  /** Rows with the time of the row above. */
  readonly sameTime: number;
  readonly unfinished: boolean;
}

/** Steps of the clock that are listed. */
const MOST_STEPS = 20;

/** Looks at a log as a person would: where it begins, what each column is, what is to be asked. */
export function proposeLog(all: readonly TableRow[]): LogProposal {
  const rows = all.filter(({ cells }) => !isBlank(cells));
  const start = firstDataRow(rows);
  const { headingRow, headings } = headingsAbove(rows, start);
  const unfinished = rows.at(-1)?.unfinished === true;
  const data = rows.slice(start, unfinished ? -1 : undefined);
  const width = Math.max(headings.length, ...data.slice(0, HEAD_ROWS).map(({ cells }) => cells.length));
  const names = Array.from({ length: width }, (_, i) => (headings[i] ?? "") || letterOf(i));
  const order = (i: number): DateOrder | null => dateOrderOf(texts(data, i));
  const kinds = names.map((heading, i) => columnKind(data, i, heading));
  const time = timeColumn(kinds, names, data);
  const timeOfDay =
    time !== null && kinds[time]!.kind === "date"
      ? kinds.findIndex(({ kind }, i) => kind === "of-day" && i !== time)
      : -1;
  const reference = (i: number): string => {
    const { name } = splitHeading(names[i]!);
    return headingRow > 0 && names.filter((other) => splitHeading(other).name === name).length === 1
      ? name
      : letterOf(i);
  };
  const columns = kinds.map((found, i): ProposedColumn => ({
    letter: letterOf(i),
    heading: names[i]!,
    kind:
      i === time
        ? "time"
        : i === timeOfDay
          ? "time of day"
          : isFigures(found.kind)
            ? "figures"
            : found.kind === "empty"
              ? "empty"
              : "text",
    unit: readUnit(splitHeading(names[i]!).unit ?? ""),
    figures: found.figures,
    noReadings: found.noReadings,
    others: found.others,
    firstOther: found.firstOther,
  }));
  const written = time === null ? null : splitHeading(names[time]!).unit;
  const dates = time === null ? null : order(time);
  const ambiguous =
    time === null || dates !== null
      ? null
      : (texts(data, time).find((text) => parseStamp(text, null) === "ambiguous") ?? null);
  const stamps = clockOf(data, time, timeOfDay, dates ?? "day-first", secondsIn(written ?? "") ?? 1);
  return {
    headingRow,
    firstRow: data[0]?.row ?? 0,
    rows: data.length,
    columns,
    time: time === null ? null : reference(time),
    timeOfDay: timeOfDay < 0 ? null : reference(timeOfDay),
    clock:
      time === null
        ? null
        : isFigures(kinds[time]!.kind)
          ? "elapsed"
          : kinds[time]!.kind === "of-day"
            ? "of-day"
            : "dated",
    timeUnit: written !== null && secondsIn(written) !== null ? written : null,
    dates,
    ambiguous,
    thermometers: thermometersOf(data, columns, names, reference),
    ...stamps,
    unfinished,
  };
}

const texts = (data: readonly TableRow[], i: number): string[] => data.map(({ cells }) => cellText(cells[i]));

type Kind = "date" | "dated" | "of-day" | "figures" | "counter" | "text" | "empty";
const isFigures = (kind: Kind): boolean => kind === "figures" || kind === "counter";

interface Column {
  readonly kind: Kind;
  readonly figures: number;
  readonly noReadings: number;
  readonly others: number;
  readonly firstOther: { readonly row: number; readonly text: string } | null;
  readonly increasing: boolean;
}

function columnKind(data: readonly TableRow[], i: number, heading: string): Column {
  let [dates, dated, ofDay, figures, noReadings, others, steps] = [0, 0, 0, 0, 0, 0, 0];
  let firstOther: Column["firstOther"] = null;
  let last = -Infinity;
  let increasing = true;
  for (const { row, cells } of data) {
    const text = cellText(cells[i]);
    if (text === "") continue;
    const value = figureIn(cells[i]);
    if (value !== null) {
      figures++;
      if (isNoFigure(value)) noReadings++;
      if (!(value > last)) increasing = false;
      if (value === last + 1) steps++;
      last = value;
    } else if (isNoReading(text)) noReadings++;
    else {
      const stamp = parseStamp(text, "day-first") ?? parseStamp(text, "month-first");
      if (stamp === null || stamp === "ambiguous") {
        others++;
        firstOther ??= { row, text };
      } else if (!stamp.dated) ofDay++;
      else if (/\d:\d/.test(text)) dated++;
      else dates++;
    }
  }
  const counter = figures > 2 && steps >= figures - 2 && !/time|zeit|elapsed|\bs\b|sec/i.test(heading);
  const kind = largest({
    date: dates,
    dated,
    "of-day": ofDay,
    [counter ? "counter" : "figures"]: figures,
    text: others,
  });
  return {
    kind: kind ?? (noReadings > 0 ? "figures" : "empty"),
    figures,
    noReadings,
    others,
    firstOther,
    increasing: increasing && figures > 1,
  };
}

function largest(counts: Readonly<Partial<Record<Kind, number>>>): Kind | null {
  const [kind, count] = Object.entries(counts).reduce((best, next) => (next[1] > best[1] ? next : best), ["empty", 0]);
  return count === 0 ? null : (kind as Kind);
}

/** A figure, with its unit behind it if it has one. */
function figureIn(cell: Cell | undefined): number | null {
  if (typeof cell === "number") return cell;
  const text = cellText(cell);
  const bare = /^(.*?[\d.,])\s*(?:[°ºΩ℃]|\p{L}{1,5})[°CFKΩ]?$/u.exec(text);
  return parseDecimal(bare !== null && !/[ap]m?$/i.test(text) ? bare[1]! : text)?.value ?? null;
}

/** The first row that reads like the rows that follow it: with figures, and a time or a second figure. */
function firstDataRow(rows: readonly TableRow[]): number {
  const isData = ({ cells }: TableRow): boolean => {
    const figures = cells.filter((cell) => figureIn(cell) !== null || isNoReading(cellText(cell))).length;
    const times = cells.filter(
      (cell) => figureIn(cell) === null && parseStamp(cellText(cell), "day-first") !== null,
    ).length;
    return figures > 0 && figures + times > 1;
  };
  const most = Math.min(rows.length, HEAD_ROWS);
  for (let i = 0; i < most; i++) {
    const next = rows[i + 1];
    if (
      isData(rows[i]!) &&
      (next === undefined || (isData(next) && Math.abs(next.cells.length - rows[i]!.cells.length) < 2))
    )
      return i;
  }
  return 0;
}

function headingsAbove(
  rows: readonly TableRow[],
  start: number,
): { readonly headingRow: number; readonly headings: readonly string[] } {
  const width = rows[start]?.cells.length ?? 0;
  const units = start > 0 && isUnits(rows[start - 1]!.cells) ? rows[start - 1]! : null;
  const row = rows[start - (units === null ? 1 : 2)];
  const own = row?.cells.filter((cell) => cellText(cell) !== "").length ?? 0;
  // A title above the readings has one cell, or as many as its commas make.
  if (row === undefined || start === 0 || own < Math.max(2, width / 2)) {
    const alone = units === null ? null : rows[start - 1]!;
    return alone === null
      ? { headingRow: 0, headings: [] }
      : { headingRow: alone.row, headings: alone.cells.map(cellText) };
  }
  return {
    headingRow: row.row,
    headings: units === null ? row.cells.map(cellText) : headingsWithUnits(row.cells, units.cells),
  };
}

/** Dates first, then times of day, then a column that is called time or counts up. */
function timeColumn(kinds: readonly Column[], names: readonly string[], data: readonly TableRow[]): number | null {
  if (data.length === 0) return null;
  const first = (test: (column: Column, i: number) => boolean): number => kinds.findIndex(test);
  const found = [
    first(({ kind }) => kind === "dated"),
    first(({ kind }) => kind === "date"),
    first(({ kind }) => kind === "of-day"),
    first(({ kind }, i) => isFigures(kind) && isTimeHeading(splitHeading(names[i]!).name)),
    first(({ kind, increasing }) => kind === "figures" && increasing),
    first(({ kind, increasing }) => kind === "counter" && increasing),
  ].find((i) => i >= 0);
  return found ?? null;
}

function thermometersOf(
  data: readonly TableRow[],
  columns: readonly ProposedColumn[],
  names: readonly string[],
  reference: (i: number) => string,
): readonly ProposedThermometer[] {
  const plain = names.map((name) => splitHeading(name).name);
  const channel = plain.findIndex(isChannelHeading);
  const value = plain.findIndex(isValueHeading);
  if (channel >= 0 && value >= 0 && columns[channel]!.kind === "text") {
    const found = [...new Set(texts(data, channel))].filter((name) => name !== "");
    return found.map((name) => ({ name, column: null, unit: columns[value]!.unit }));
  }
  return columns.flatMap(({ kind, unit }, i) => {
    if (kind !== "figures" || /^(no|nr|n|#|scan|index|record|sample|count|battery.*|status)\.?$/i.test(plain[i]!))
      return [];
    return [{ name: plain[i]!, column: reference(i), unit }];
  });
}

function clockOf(
  data: readonly TableRow[],
  time: number | null,
  timeOfDay: number,
  order: DateOrder,
  scale: number,
): Pick<LogProposal, "steps" | "sameTime"> {
  const steps: ClockStep[] = [];
  let sameTime = 0;
  if (time === null) return { steps, sameTime };
  const column = new TimeColumn({ scale, order, day: 0 });
  let last = -Infinity;
  for (const { row, cells } of data) {
    let seconds: number;
    try {
      const stamp = timeOfDay < 0 ? cells[time] : `${cellText(cells[time])} ${cellText(cells[timeOfDay])}`;
      seconds = column.read(stamp, row, () => "");
    } catch {
      // What is no time is told when the log is read.
      continue;
    }
    if (seconds === last) sameTime++;
    if (seconds < last && steps.length < MOST_STEPS) steps.push({ row, from: last, to: seconds });
    last = seconds;
  }
  return { steps, sameTime };
}

import { refuse, show } from "../../../engine/index.ts";
import type { Cell, TableRow } from "../table/table.ts";
import { readUnit, splitHeading, UNITS_ACCEPTED, type ThermometerUnit } from "../text/units.ts";
import { secondsIn } from "./figures.ts";
import { checkResistance, type ResistanceThermometer } from "./resistance.ts";

/** What is asked of a log. */
export interface ColumnRequest {
  /** Heading of the time column, or its letter, where it is not plain. */
  readonly time?: string | undefined;
  /** Heading or letter of a column with the time of day, beside a column of dates, where it is not plain. */
  readonly timeOfDay?: string | undefined;
  /** Unit of elapsed time, where the heading does not show it. */
  readonly timeUnit?: string | undefined;
  readonly thermometers: Readonly<Record<string, ThermometerRequest>>;
}

/** What is asked of a thermometer of a log. */
export interface ThermometerRequest extends ResistanceThermometer {
  /** Heading of its column, or the column's letter; without one, its name. */
  readonly column?: string | undefined;
  readonly unit?: string | undefined;
}

/** Where things stand in a log: a column for each thermometer, or one for all with their names beside. */
export interface LogColumns {
  readonly headingRow: number;
  readonly headings: readonly string[];
  readonly time: number;
  /** A time of day in a column of its own, beside the date. */
  readonly timeOfDay: number | null;
  /** Seconds in the unit of the time column. */
  readonly timeScale: number;
  readonly timeUnitKnown: boolean;
  readonly layout:
    | {
        readonly kind: "wide";
        readonly columns: readonly {
          readonly thermometer: string;
          readonly index: number;
          readonly unit: ThermometerUnit;
        }[];
      }
    | {
        readonly kind: "long";
        readonly name: number;
        readonly value: number;
        /** Column of units, or the unit of all. */
        readonly unitColumn: number | null;
        readonly units: Readonly<Record<string, ThermometerUnit | null>>;
      };
}

const TIME =
  /^(time|date ?time|date and time|date\/time|time ?stamp|timestamp|scan time|zeit|uhrzeit|zeitstempel|datum\/(?:uhr)?zeit|datum und (?:uhr)?zeit|heure|date et heure|hora|fecha y hora|ora|data e ora|elapsed|elapsed time|t)$/i;
const DATE = /^(date|datum|day|tag|jour|fecha|data)$/i;
/** Behind the word for time: a zone or the way the time is written, no unit of elapsed time. */
const NO_UNIT =
  /^(utc|gmt|local|lokal|[a-z]{2,4}t$|time$|zeit$|uhrzeit$|h{1,2}:m|d{1,2}[./-]|y{2,4}[./-]|m{1,2}[./-]|hms|iso)/i;
const CHANNEL = /^(channel|thermometer|sensor|probe|instrument|name)$/i;
const VALUE = /^(value|reading|indication|temperature|resistance)$/i;

/** Whether a heading, without its unit, is a word for time; one that tells thermometers apart; one for their readings. */
export const isTimeHeading = (name: string): boolean => TIME.test(name) || DATE.test(name);
export const isChannelHeading = (name: string): boolean => CHANNEL.test(name);
export const isValueHeading = (name: string): boolean => VALUE.test(name);

const textOf = (cell: Cell | undefined): string => (cell === null || cell === undefined ? "" : String(cell).trim());

/** Finds the columns asked for in a row of headings. @throws {InputError} */
export function logColumns(heading: TableRow, request: ColumnRequest, file: string): LogColumns {
  const headings = heading.cells.map(textOf);
  const parts = headings.map(splitHeading);
  const place = `${file}, row ${heading.row}`;
  const list = headings
    .filter((text) => text !== "")
    .map(show)
    .join(", ");
  const find = (pattern: RegExp): number => parts.findIndex(({ name }) => pattern.test(name));

  const asked = request.time;
  let time = asked === undefined ? find(TIME) : columnAt(asked, headings, parts);
  let timeOfDay: number | null = null;
  const date = asked === undefined ? find(DATE) : -1;
  if (date >= 0) [time, timeOfDay] = [date, time < 0 ? null : time];
  if (request.timeOfDay !== undefined) {
    timeOfDay = columnAt(request.timeOfDay, headings, parts);
    if (timeOfDay < 0) refuse(place, list, `the heading ${show(request.timeOfDay)}, log.timeOfDay of the description`);
  }
  if (time < 0)
    refuse(
      place,
      list,
      asked === undefined
        ? "a heading such as time, timestamp or date; or log.time in the description"
        : `the heading ${show(asked)}`,
    );
  const written = parts[time]!.unit;
  const timeUnit = request.timeUnit ?? (written !== null && NO_UNIT.test(written) ? null : written);
  const timeScale =
    timeUnit === null
      ? 1
      : (secondsIn(timeUnit) ??
        refuse(`${place}, column ${headings[time]}`, timeUnit, "s, min, h or ms as the unit of elapsed time"));

  const base = { headingRow: heading.row, headings, time, timeOfDay, timeScale, timeUnitKnown: timeUnit !== null };
  const names = Object.keys(request.thermometers);
  const channel = find(CHANNEL);
  const value = find(VALUE);
  if (channel >= 0 && value >= 0 && !names.some((name) => parts.some((part) => part.name === name))) {
    const unitColumn = find(/^units?$/i);
    const common = parts[value]!.unit;
    const units = Object.fromEntries(
      names.map((name) => [
        name,
        unitOf(request, name, unitColumn >= 0 ? null : common, `${place}, column ${headings[value]}`, unitColumn >= 0),
      ]),
    );
    return {
      ...base,
      layout: { kind: "long", name: channel, value, unitColumn: unitColumn < 0 ? null : unitColumn, units },
    };
  }
  const columns = names.map((thermometer) => {
    const wanted = request.thermometers[thermometer]!.column ?? thermometer;
    const matches = parts.flatMap(({ name }, i) => (name === wanted || headings[i] === wanted ? [i] : []));
    const loose =
      matches.length > 0
        ? matches
        : parts.flatMap(({ name }, i) => (name.toLowerCase() === wanted.toLowerCase() ? [i] : []));
    // A letter names a column only if it is asked for as a column: a thermometer may be called B.
    const lettered = wanted === thermometer ? -1 : columnAt(wanted, headings, parts);
    if (loose.length === 0 && lettered < 0)
      refuse(place, list, `a column ${show(wanted)}, with its unit: ${show(`${wanted} / °C`)}`);
    if (loose.length > 1)
      refuse(
        place,
        list,
        `one column ${show(wanted)}, not ${loose.length}: state its letter, ${loose.map(letterOf).join(" or ")}`,
      );
    const index = loose[0] ?? lettered;
    const unit = unitOf(
      request,
      thermometer,
      headings[index] === thermometer ? null : parts[index]!.unit,
      `${place}, column ${headings[index]}`,
      false,
    )!;
    return { thermometer, index, unit };
  });
  return { ...base, layout: { kind: "wide", columns } };
}

/** A column by its heading, whole or without its unit, else by its letter; −1 if there is none. */
function columnAt(asked: string, headings: readonly string[], parts: readonly { readonly name: string }[]): number {
  const named = headings.findIndex((text, i) => text === asked || parts[i]!.name === asked);
  if (named >= 0 || !/^[A-Z]{1,2}$/.test(asked)) return named;
  const index = Array.from(asked).reduce((number, letter) => 26 * number + letter.codePointAt(0)! - 64, 0) - 1;
  return index < headings.length ? index : -1;
}

/** Letter of a column as spreadsheets have it: 0 is A, 26 is AA. */
export const letterOf = (index: number): string =>
  index < 26 ? String.fromCodePoint(65 + index) : letterOf(Math.floor(index / 26) - 1) + letterOf(index % 26);

/** The unit of a thermometer from the description and the heading, which must not contradict one another. */
function unitOf(
  { thermometers }: ColumnRequest,
  name: string,
  written: string | null,
  place: string,
  later: boolean,
): ThermometerUnit | null {
  const stated = thermometers[name]!.unit;
  const fromHeading = written === null ? null : readUnit(written);
  if (written !== null && fromHeading === null) refuse(place, written, UNITS_ACCEPTED);
  const fromDescription = stated === undefined ? null : readUnit(stated);
  if (stated !== undefined && fromDescription === null) refuse(`thermometers.${name}.unit`, stated, UNITS_ACCEPTED);
  if (fromHeading !== null && fromDescription !== null && fromHeading !== fromDescription) {
    refuse(place, written, `the unit of the description, ${fromDescription}`);
  }
  const unit = fromHeading ?? fromDescription;
  if (unit === null && !later) refuse(place, "no unit", `${UNITS_ACCEPTED}, in the heading or the description`);
  return unit;
}

/** Units of all thermometers together: mK from a common zero do not mix with temperatures. @throws {InputError} */
export function checkUnits(
  units: Readonly<Record<string, ThermometerUnit>>,
  request: ColumnRequest,
  place: string,
): void {
  const names = Object.keys(units);
  const relative = names.filter((name) => units[name] === "mK");
  if (relative.length > 0 && relative.length < names.length) {
    refuse(
      place,
      names.map((name) => `${name} in ${units[name]}`).join(", "),
      "mK for every thermometer or for none: they count from a zero that the others lack",
    );
  }
  for (const name of names) {
    if (units[name] === "Ω") checkResistance(name, request.thermometers[name]!);
  }
}

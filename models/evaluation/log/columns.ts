import { refuse, show } from "../../../engine/index.ts";
import type { Cell, TableRow } from "../table/table.ts";
import { readUnit, splitHeading, UNITS_ACCEPTED, type ThermometerUnit } from "../text/units.ts";
import { secondsIn } from "./figures.ts";

/** What is asked of a log. */
export interface ColumnRequest {
  /** Heading of the time column, where it is not plain. */
  readonly time?: string | undefined;
  readonly thermometers: Readonly<
    Record<string, { readonly unit?: string | undefined; readonly nominalResistance?: number | undefined }>
  >;
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

const TIME = /^(time|date ?time|date and time|date\/time|time ?stamp|timestamp|zeit|elapsed|elapsed time|t)$/i;
const DATE = /^(date|datum|day)$/i;
const CHANNEL = /^(channel|thermometer|sensor|probe|instrument|name)$/i;
const VALUE = /^(value|reading|indication|temperature|resistance)$/i;

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
  let time =
    asked === undefined ? find(TIME) : headings.findIndex((text, i) => text === asked || parts[i]!.name === asked);
  let timeOfDay: number | null = null;
  const date = asked === undefined ? find(DATE) : -1;
  if (date >= 0) [time, timeOfDay] = [date, time < 0 ? null : time];
  if (time < 0)
    refuse(
      place,
      list,
      asked === undefined
        ? "a heading such as time, timestamp or date; or log.time in the description"
        : `the heading ${show(asked)}`,
    );
  const timeUnit = parts[time]!.unit;
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
    const matches = parts.flatMap(({ name }, i) => (name === thermometer || headings[i] === thermometer ? [i] : []));
    const loose =
      matches.length > 0
        ? matches
        : parts.flatMap(({ name }, i) => (name.toLowerCase() === thermometer.toLowerCase() ? [i] : []));
    if (loose.length === 0)
      refuse(place, list, `a column ${show(thermometer)}, with its unit: ${show(`${thermometer} / °C`)}`);
    if (loose.length > 1) refuse(place, list, `one column ${show(thermometer)}, not ${loose.length}`);
    const index = loose[0]!;
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
    if (units[name] === "Ω" && request.thermometers[name]!.nominalResistance === undefined) {
      refuse(`${name}.nominalResistance`, undefined, `R₀ in Ω of ${name}, which is logged as a resistance`);
    }
  }
}

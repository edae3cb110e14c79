import { fillText } from "./fill.ts";
import { withUnit, type Numbers } from "./numbers.ts";
import type { Speech } from "./statement.ts";

/** A difference of temperature in mK, to three significant digits: "4.28 mK". */
export function milli(kelvin: number, { fixed }: Numbers): string {
  const value = 1000 * kelvin;
  const size = Math.abs(value);
  return withUnit(fixed(value, value === 0 || size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3), "mK");
}

/** The same with its sign, as a difference from the reference position. */
export const signed = (kelvin: number, numbers: Numbers): string => `${kelvin > 0 ? "+" : ""}${milli(kelvin, numbers)}`;

/** A figure of a column in mK. */
export const inMilli = (kelvin: number, places: number, { fixed }: Numbers): string => fixed(1000 * kelvin, places);

/** A duration for people: "90 s", "30 min", "3 h". */
export function duration(seconds: number, { plain }: Numbers): string {
  if (seconds < 120) return withUnit(plain(Number(seconds.toFixed(1))), "s");
  if (seconds < 7200) return withUnit(plain(Number((seconds / 60).toFixed(1))), "min");
  return withUnit(plain(Number((seconds / 3600).toFixed(2))), "h");
}

/** Seconds from which on a log counts dates, not time since it began. */
const DATES = 86_400 * 365;

/** Whether a log's clock shows dates, so that its moments are seconds since 1970. */
export const isDated = (seconds: number): boolean => seconds >= DATES;

/** A moment as the log's own clock shows it, or the time since its beginning. */
export function moment(seconds: number, numbers: Numbers): string {
  if (!isDated(seconds)) return duration(seconds, numbers);
  return new Date(1000 * Math.round(seconds)).toISOString().slice(0, 19).replace("T", " ");
}

/** What the time axis counts from. */
export const beginning = (
  seconds: number,
  { messages: { surveyPanels: words }, numbers }: Pick<Speech, "messages" | "numbers">,
): string =>
  !isDated(seconds) ? words.sinceBeginning : fillText(words.since, { moment: moment(seconds, numbers).slice(0, 16) });

/** A length in mm as it was stated. */
export const millimetres = (value: number, { plain }: Numbers): string =>
  withUnit(plain(Number(value.toPrecision(6))), "mm");

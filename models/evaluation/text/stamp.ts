import { parseInstant, secondsOfCivil, zoneSeconds } from "./instant.ts";

/** Which of two leading numbers of a date is the day. */
export type DateOrder = "day-first" | "month-first";

/** A moment as a logger wrote it. */
export interface Stamp {
  /**
   * Seconds since 1970-01-01T00:00 as `parseInstant` counts them; of a stamp without a date, since midnight or since the
   * start.
   */
  readonly seconds: number;
  readonly zoned: boolean;
  /** False if only a time of day (or hours, minutes and seconds since the start) was written. */
  readonly dated: boolean;
}

const CLOCK = String.raw`(\d{1,4}):(\d{2})(?::(\d{2})(?:[.,:](\d{1,9}))?)?\s*([ap])?\.?(m)?\.?\s*(z|[+-]\d{2}:?\d{2})?`;
const TIME_ONLY = new RegExp(`^${CLOCK}$`, "i");
const NUMERIC = new RegExp(String.raw`^(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})(?:[\sT,;]+${CLOCK})?$`, "i");
const NAMED_DAY = new RegExp(
  String.raw`^(?:\p{L}{2,10}\.?,?\s+)?(\d{1,2})(?:st|nd|rd|th|\.)?[\s.-]*(\p{L}{3,10})[\s.,-]+(\d{2,4})(?:[\sT,;]+${CLOCK})?$`,
  "iu",
);
const NAMED_MONTH = new RegExp(
  String.raw`^(?:\p{L}{2,10}\.?,?\s+)?(\p{L}{3,10})\.?[\s-]+(\d{1,2})(?:st|nd|rd|th)?[\s.,-]+(\d{4})(?:[\sT,;]+${CLOCK})?$`,
  "iu",
);

/** Beginnings of the months' names in English, German, French, Spanish and Italian (common practice). */
const MONTHS: readonly RegExp[] = [
  /^(jan|jän|ene|gen)/,
  /^(feb|fév|fev)/,
  /^(mar|mär|mrz|maer)/,
  /^(apr|avr|abr)/,
  /^(may|mai|mag)/,
  /^(jun|juin|giu)/,
  /^(jul|juil|lug)/,
  /^(aug|aoû|aou|ago)/,
  /^(sep|set)/,
  /^(oct|okt|ott)/,
  /^nov/,
  /^(dec|dez|déc|dic)/,
];

/**
 * Reads a time stamp of a logger: what `parseInstant` reads, dates of numbers in any order, two-digit years (from 2000),
 * AM and PM, names of months, and times without a date.
 *
 * @param order which number of 03/04/2026 is the day; `null` if that is not known
 * @returns `"ambiguous"` if the date may be two and no order is stated; `null` for what is no time
 */
export function parseStamp(text: string, order: DateOrder | null): Stamp | "ambiguous" | null {
  const instant = parseInstant(text);
  if (instant !== null) return { ...instant, dated: true };
  const plain = text.trim().replaceAll(/[\u00a0\u202f]/g, " ");
  const time = TIME_ONLY.exec(plain);
  if (time !== null) {
    const clock = clockOf(time, 1, true);
    return clock === null ? null : { ...clock, dated: false };
  }
  const numeric = NUMERIC.exec(plain);
  if (numeric !== null) return numericDate(numeric, order);
  const day = NAMED_DAY.exec(plain);
  if (day !== null) return civilDate(yearOf(day[3]!), monthOf(day[2]!), Number(day[1]), clockOf(day, 4, false));
  const month = NAMED_MONTH.exec(plain);
  if (month !== null)
    return civilDate(yearOf(month[3]!), monthOf(month[1]!), Number(month[2]), clockOf(month, 4, false));
  return null;
}

/** Which order the dates of a column show: one with a day beyond 12 tells for all. `null` if none does. */
export function dateOrderOf(stamps: Iterable<string>): DateOrder | null {
  for (const text of stamps) {
    const parts = /^\s*(\d{1,2})([/-])(\d{1,2})\2\d{2,4}\b/.exec(text);
    if (parts === null) continue;
    const [first, second] = [Number(parts[1]), Number(parts[3])];
    if (first > 12 && second <= 12) return "day-first";
    if (second > 12 && first <= 12) return "month-first";
  }
  return null;
}

function numericDate(parts: RegExpExecArray, order: DateOrder | null): Stamp | "ambiguous" | null {
  const [, first, mark, second, third] = parts;
  const clock = clockOf(parts, 5, false);
  if (first!.length === 4) return civilDate(Number(first), Number(second), Number(third), clock);
  if (first!.length === 3 || third!.length === 3 || third!.length === 1) return null;
  const year = yearOf(third!);
  // With dots the day comes first wherever dates are written so.
  const known = mark === "." ? "day-first" : (order ?? dateOrderOf([parts[0]]));
  if (known === null) {
    const same = Number(first) === Number(second);
    const either = civilDate(year, Number(second), Number(first), clock);
    return same || either === null ? either : "ambiguous";
  }
  return known === "day-first"
    ? civilDate(year, Number(second), Number(first), clock)
    : civilDate(year, Number(first), Number(second), clock);
}

function civilDate(
  year: number,
  month: number,
  day: number,
  clock: { readonly seconds: number; readonly zoned: boolean } | null,
): Stamp | null {
  const midnight = clock === null ? null : secondsOfCivil(year, month, day);
  return midnight === null ? null : { seconds: midnight + clock!.seconds, zoned: clock!.zoned, dated: true };
}

/** Seconds of a time of day from its parts at an index on; midnight if there are none. */
function clockOf(
  parts: RegExpExecArray,
  at: number,
  long: boolean,
): { readonly seconds: number; readonly zoned: boolean } | null {
  const [hours, minutes, whole, part, half, m, zone] = parts.slice(at, at + 7);
  if (hours === undefined) return { seconds: 0, zoned: false };
  let hour = Number(hours);
  if ((half === undefined) !== (m === undefined)) return null;
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return null;
    hour = (hour % 12) + (half.toLowerCase() === "p" ? 12 : 0);
  }
  const second = Number(whole ?? 0) + Number(`0.${part ?? "0"}`);
  if ((hour > 23 && !long) || Number(minutes) > 59 || second >= 61) return null;
  return { seconds: hour * 3600 + Number(minutes) * 60 + second - zoneSeconds(zone), zoned: zone !== undefined };
}

const yearOf = (text: string): number => (text.length === 2 ? 2000 + Number(text) : Number(text));

const monthOf = (text: string): number => 1 + MONTHS.findIndex((name) => name.test(text.toLowerCase()));

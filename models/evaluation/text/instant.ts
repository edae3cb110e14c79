/** A moment read from text. */
export interface Instant {
  /** Seconds since 1970-01-01T00:00, in UTC if a zone was given, and as the clock showed them if none was. */
  readonly seconds: number;
  readonly zoned: boolean;
}

const ISO = /^(\d{4})-(\d{2})-(\d{2})(?:[T ]+(\d{1,2}):(\d{2})(?::(\d{2})([.,]\d{1,9})?)?\s*(Z|[+-]\d{2}:?\d{2})?)?$/i;
/** Day first, with dots: common in log files, and not ambiguous as slashes are. */
const DOTTED = /^(\d{1,2})\.(\d{1,2})\.(\d{4})(?:[T ]+(\d{1,2}):(\d{2})(?::(\d{2})([.,]\d{1,9})?)?)?$/;

export const INSTANT_ACCEPTED = "a date and time such as 2026-03-02T08:15:00 or 02.03.2026 08:15:00";

/** Reads a date with or without a time of day, or gives `null`: dates with slashes are ambiguous and not read. */
export function parseInstant(text: string): Instant | null {
  const trimmed = text.trim();
  const iso = ISO.exec(trimmed);
  const dotted = iso === null ? DOTTED.exec(trimmed) : null;
  const parts = iso ?? dotted;
  if (parts === null) return null;
  const year = Number(iso === null ? parts[3] : parts[1]);
  const month = Number(parts[2]);
  const day = Number(iso === null ? parts[1] : parts[3]);
  const hour = Number(parts[4] ?? 0);
  const minute = Number(parts[5] ?? 0);
  const second = Number(parts[6] ?? 0) + Number((parts[7] ?? "0").replace(",", "."));
  const midnight = secondsOfCivil(year, month, day);
  if (midnight === null) return null;
  if (hour > 23 || minute > 59 || second >= 61) return null;
  const zone = iso?.[8];
  const seconds = midnight + hour * 3600 + minute * 60 + second - zoneSeconds(zone);
  return { seconds, zoned: zone !== undefined };
}

const two = (value: number): string => String(value).padStart(2, "0");

/** Back to text, to the second, in the same clock. */
export function formatInstant(seconds: number): string {
  const whole = Math.round(seconds);
  const days = Math.floor(whole / 86400);
  const rest = whole - days * 86400;
  const [year, month, day] = civil(days);
  const time = `${two(Math.floor(rest / 3600))}:${two(Math.floor(rest / 60) % 60)}:${two(rest % 60)}`;
  return `${String(year).padStart(4, "0")}-${two(month)}-${two(day)}T${time}`;
}

/** A moment of a log as people read it: a date and time, or elapsed seconds if the log counts from 0. */
export const showInstant = (seconds: number): string =>
  seconds >= 86400 * 365 ? formatInstant(seconds) : `${Number(seconds.toFixed(3))} s`;

/** Seconds a zone such as Z, +01:00 or -0530 is ahead of UTC. */
export const zoneSeconds = (zone: string | undefined): number => {
  if (zone === undefined || /^z$/i.test(zone)) return 0;
  const digits = zone.slice(1).replace(":", "");
  const size = Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2)) * 60;
  return zone.startsWith("-") ? -size : size;
};

/** Seconds from 1970-01-01T00:00 to the midnight a day begins with, or `null` if there is no such day. */
export const secondsOfCivil = (year: number, month: number, day: number): number | null =>
  month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month) ? null : daysSince1970(year, month, day) * 86400;

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

const daysInMonth = (year: number, month: number): number =>
  month === 2 ? (isLeap(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;

/** Days from 1970-01-01 in the proleptic Gregorian calendar. */
function daysSince1970(year: number, month: number, day: number): number {
  // Years that start in March put the leap day last, so that months have fixed lengths.
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return era * 146097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear - 719468;
}

function civil(days: number): readonly [number, number, number] {
  const shifted = days + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shiftedMonth + (shiftedMonth < 10 ? 3 : -9);
  return [
    yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1,
  ];
}

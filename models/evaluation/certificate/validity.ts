import { refuse } from "../../../engine/index.ts";
import { daysBetween } from "../text/document.ts";
import type { Certificate } from "./certificate.ts";

/** How old a calibration is on a day. */
export interface Validity {
  readonly on: string;
  readonly days: number;
  /** Day the next calibration is due, if the certificate or the laboratory states it. */
  readonly due: string | null;
  readonly overdueDays: number;
  /** A sentence for the sheet, if something is wrong. */
  readonly warning: string | null;
}

/**
 * Age of a certificate. An overdue one gives a warning and is not refused: the laboratory decides what it is worth.
 *
 * @param on day of use, YYYY-MM-DD
 * @throws {InputError} a day before the calibration
 */
export function validityOf(certificate: Certificate, on: string): Validity {
  const days = daysBetween(certificate.calibrated, on);
  if (days < 0) refuse("on", on, `a day no earlier than the calibration, ${certificate.calibrated}`);
  const due =
    certificate.due ??
    (certificate.intervalMonths === undefined ? null : monthsLater(certificate.calibrated, certificate.intervalMonths));
  const overdueDays = due === null ? 0 : Math.max(0, daysBetween(due, on));
  const name = `the calibration of ${certificate.thermometer}`;
  return {
    on,
    days,
    due,
    overdueDays,
    warning:
      due === null
        ? `${name} is ${days} days old and no day is stated on which the next is due`
        : overdueDays > 0
          ? `${name} was due on ${due}, ${overdueDays} days before ${on}: its drift may exceed what the history bounds`
          : null,
  };
}

function monthsLater(day: string, months: number): string {
  const [year, month, date] = day.split("-").map(Number) as [number, number, number];
  const whole = year * 12 + (month - 1) + Math.floor(months);
  const target = [Math.floor(whole / 12), (whole % 12) + 1] as const;
  const lengths = [
    31,
    target[0] % 4 === 0 && (target[0] % 100 !== 0 || target[0] % 400 === 0) ? 29 : 28,
    31,
    30,
    31,
    30,
    31,
    31,
    30,
    31,
    30,
    31,
  ];
  const clipped = Math.min(date, lengths[target[1] - 1]!);
  return `${target[0]}-${String(target[1]).padStart(2, "0")}-${String(clipped).padStart(2, "0")}`;
}

import * as z from "zod";
import { refuse } from "../../../engine/index.ts";
import { formatInstant, INSTANT_ACCEPTED, parseInstant } from "./instant.ts";

/** A moment in a description: text of a date and time, or seconds of a log that counts from 0. Gives seconds. */
export const instantSchema = z.union([z.number(), z.string()]).transform((value, context) => {
  if (typeof value === "number") return value;
  const instant = parseInstant(value);
  if (instant !== null) return instant.seconds;
  context.addIssue({ code: "custom", message: `${INSTANT_ACCEPTED}, or elapsed seconds as a number` });
  return z.NEVER;
});

/** A day, as `YYYY-MM-DD`; stays text. */
export const daySchema = z.string().refine((text) => /^\d{4}-\d{2}-\d{2}$/.test(text) && parseInstant(text) !== null, {
  message: "a day as YYYY-MM-DD",
});

/** The day a number of days after another, both as `YYYY-MM-DD`. @throws {InputError} */
export const dayAfter = (from: string, days: number): string =>
  formatInstant(86400 * daysBetween("1970-01-01", from) + 86400 * days).slice(0, 10);

/** Days from one day to another, both as `YYYY-MM-DD`. @throws {InputError} */
export function daysBetween(from: string, to: string): number {
  const [start, end] = [from, to].map((text) => {
    const instant = parseInstant(text);
    return instant === null ? refuse("date", text, "a day as YYYY-MM-DD") : instant.seconds;
  });
  return Math.round((end! - start!) / 86400);
}

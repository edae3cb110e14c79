import * as z from "zod";
import { InputError, refuse, show, type Problem } from "../../../engine/index.ts";
import { INSTANT_ACCEPTED, parseInstant } from "./instant.ts";

/** A moment in a description: text of a date and time, or seconds of a record that counts from 0. Gives seconds. */
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

/** Days from one day to another, both as `YYYY-MM-DD`. @throws {InputError} */
export function daysBetween(from: string, to: string): number {
  const [start, end] = [from, to].map((text) => {
    const instant = parseInstant(text);
    return instant === null ? refuse("date", text, "a day as YYYY-MM-DD") : instant.seconds;
  });
  return Math.round((end! - start!) / 86400);
}

/**
 * Checks a description against its schema and fills its defaults.
 *
 * @throws {InputError} every problem found: place, value there, what is accepted
 */
export function readDocument<S extends z.ZodType>(schema: S, document: unknown): z.output<S> {
  const parsed = schema.safeParse(document);
  if (parsed.success) return parsed.data;
  throw new InputError(parsed.error.issues.flatMap((issue) => problemsOf(issue, document)));
}

const WORDS: Readonly<Record<string, string>> = {
  number: "a finite number",
  string: "a text",
  object: "an object",
  record: "an object",
  array: "a list",
  tuple: "a list",
  boolean: "true or false",
};

function problemsOf(issue: z.core.$ZodIssue, document: unknown): Problem[] {
  let found: unknown = document;
  for (const key of issue.path) found = (found as Record<PropertyKey, unknown> | null | undefined)?.[key];
  const place = issue.path.map(String).join(".");
  const value = show(found);
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key) => ({
        place: place === "" ? key : `${place}.${key}`,
        value: show((found as Record<string, unknown>)[key]),
        accepted: "nothing: no such field is known here",
      }));
    case "invalid_type":
      return [{ place, value, accepted: WORDS[issue.expected] ?? `a value of type ${issue.expected}` }];
    case "invalid_value":
      return [{ place, value, accepted: issue.values.map(show).join(" or ") }];
    case "too_small":
      return [{ place, value, accepted: sized(issue.origin, issue.inclusive === false ? "greater than" : "at least", issue.minimum) }];
    case "too_big":
      return [{ place, value, accepted: sized(issue.origin, issue.inclusive === false ? "less than" : "at most", issue.maximum) }];
    case "invalid_union": {
      const nested = issue.errors.flatMap((errors) =>
        errors.flatMap((error) => problemsOf({ ...error, path: [...issue.path, ...error.path] } as z.core.$ZodIssue, document)),
      );
      return [{ place, value, accepted: [...new Set(nested.map(({ accepted }) => accepted))].join(", or ") || issue.message }];
    }
    default:
      return [{ place, value, accepted: issue.message }];
  }
}

function sized(origin: string, relation: string, limit: number | bigint): string {
  if (origin === "array") return `a list of ${relation} ${limit} values`;
  if (origin === "string") return "a text that is not empty";
  return `a number ${relation} ${limit}`;
}

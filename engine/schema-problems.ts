import * as z from "zod";
import { closestName } from "./closest-name.ts";
import { calledHere } from "./distributions/also-called.ts";
import { fieldsAt } from "./schema-fields.ts";
import { InputError, show, type Problem } from "./errors.ts";

type Issue = z.core.$ZodIssue;

/**
 * Checks a document against a schema and fills its defaults.
 *
 * @param at place of the document within a larger one, such as `bath`
 * @throws {InputError} every problem found: place, value and accepted values
 */
export function readBySchema<S extends z.ZodType>(schema: S, document: unknown, at = ""): z.output<S> {
  const unusable = unusableTexts(document);
  if (unusable.length > 0)
    throw new InputError(unusable.map((problem) => ({ ...problem, place: joined(at, problem.place) })));
  const parsed = schema.safeParse(document);
  if (parsed.success) return parsed.data;
  throw new InputError(schemaProblems(parsed.error, document, at, schema));
}

/**
 * The problems that a schema found in a document, in Trialband's words: place, value and accepted values.
 *
 * @param schema the schema, for what a misspelt field most likely means
 */
export function schemaProblems(
  error: z.core.$ZodError,
  document: unknown,
  at = "",
  schema: z.ZodType | null = null,
): Problem[] {
  return error.issues
    .flatMap((issue) => problemsOf(issue, document, schema))
    .map((problem) => ({ ...problem, place: joined(at, problem.place) }));
}

/** Half of a pair of UTF-16 code units without the other half. */
const LONE_SURROGATE = /\p{Surrogate}/u;

/**
 * Texts and names that a schema lets pass and that are lost later: a name `__proto__`, which assignments and schemas
 * skip, and half of a surrogate pair, which UTF-8 cannot hold and canonical JSON (RFC 8785, 3.2.2.2) refuses.
 */
function unusableTexts(document: unknown): Problem[] {
  const problems: Problem[] = [];
  const open: { readonly value: unknown; readonly place: string }[] = [{ value: document, place: "" }];
  // A list in place of recursion: a document may be nested as deeply as its author likes.
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { value, place } = next;
    if (typeof value === "string" && LONE_SURROGATE.test(value))
      problems.push({ place, value: show(value), accepted: "a text without half of a surrogate pair" });
    if (typeof value !== "object" || value === null) continue;
    for (const [name, item] of Object.entries(value)) {
      const inner = joined(place, name);
      if (name === "__proto__")
        problems.push({ place: inner, value: show(item), accepted: "another name than __proto__" });
      if (LONE_SURROGATE.test(name))
        problems.push({ place: inner, value: show(name), accepted: "a name without half of a surrogate pair" });
      open.push({ value: item, place: inner });
    }
  }
  return problems;
}

const joined = (...parts: readonly string[]): string => parts.filter((part) => part !== "").join(".");
const placeOf = (path: readonly PropertyKey[]): string => path.map(String).join(".");

function valueAt(document: unknown, path: readonly PropertyKey[]): unknown {
  let value = document;
  for (const key of path) value = (value as Record<PropertyKey, unknown> | null | undefined)?.[key];
  return value;
}

function problemsOf(issue: Issue, document: unknown, schema: z.ZodType | null): Problem[] {
  const place = placeOf(issue.path);
  const value = show(valueAt(document, issue.path));
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key) => ({
        place: joined(place, key),
        value: show(valueAt(document, [...issue.path, key])),
        accepted: `nothing: there is no such field here${meantField(key, issue, document, schema)}`,
      }));
    case "too_small":
      return [
        {
          place,
          value,
          accepted: bound(issue.origin, issue.inclusive === false ? "greater than" : "at least", issue.minimum),
        },
      ];
    case "too_big":
      return [
        {
          place,
          value,
          accepted: bound(issue.origin, issue.inclusive === false ? "less than" : "at most", issue.maximum),
        },
      ];
    case "invalid_value":
      return [{ place, value, accepted: issue.values.map(show).join(" or ") }];
    case "invalid_union": {
      if (issue.discriminator !== undefined) {
        const kind = issue.path.at(-1) === issue.discriminator ? issue.path : [...issue.path, issue.discriminator];
        const options = "options" in issue && Array.isArray(issue.options) ? issue.options : [];
        return [
          {
            place: placeOf(kind),
            value: show(valueAt(document, kind)),
            accepted: `one of ${options.map(show).join(", ")}${meantKind(valueAt(document, kind), options)}`,
          },
        ];
      }
      const alternatives = (issue.errors ?? []).flatMap((errors) =>
        errors.flatMap((e) => problemsOf({ ...e, path: [...issue.path, ...e.path] } as Issue, document, schema)),
      );
      return [
        { place, value, accepted: [...new Set(alternatives.map((a) => a.accepted))].join(", or ") || issue.message },
      ];
    }
    case "invalid_type":
      return [{ place, value, accepted: TYPE_WORDS[issue.expected] ?? `a value of type ${issue.expected}` }];
    default:
      return [{ place, value, accepted: issue.message }];
  }
}

/** The field that a misspelt one most likely means, as the end of a message. */
function meantField(key: string, issue: Issue, document: unknown, schema: z.ZodType | null): string {
  const meant = schema === null ? null : closestName(key, fieldsAt(schema, document, issue.path));
  return meant === null ? "" : `; did you mean ${meant}?`;
}

/** The kind that is called otherwise, or misspelt, as the end of a message. */
function meantKind(value: unknown, kinds: readonly unknown[]): string {
  if (typeof value !== "string") return "";
  const here = calledHere(value);
  if (here !== null && kinds.includes(here))
    return `; ${show(value)} is called ${show(here)} here, as in the standards`;
  const meant = closestName(
    value,
    kinds.filter((kind) => typeof kind === "string"),
  );
  return meant === null ? "" : `; did you mean ${show(meant)}?`;
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  number: "a finite number",
  int: "a whole number",
  string: "a text",
  object: "an object",
  record: "an object",
  array: "a list",
  tuple: "a list",
  boolean: "true or false",
};

function bound(origin: string, relation: string, limit: number | bigint): string {
  if (origin === "string")
    return limit === 1 && relation === "at least"
      ? "a text that is not empty"
      : `a text of ${relation} ${limit} characters`;
  if (origin === "array") return `a list of ${relation} ${limit} values`;
  return `${origin === "int" ? "a whole number" : "a number"} ${relation} ${limit}`;
}

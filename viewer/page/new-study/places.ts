import { speech } from "../language.ts";
import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import type { Problem } from "../../../engine/index.ts";
import { fieldName } from "../field-name.ts";
import type { Draft } from "./draft.ts";
import type { Lack } from "./lacks.ts";
import { namesOf } from "./to-study.ts";

/**
 * The field of the form at which a problem is told: the one at its place, or the nearest part of the form that holds
 * it (`inputs.bathAxial` for `inputs.bathAxial.values.3` if no field is nearer); "" for the form as a whole.
 */
export function nearestPlace(place: string, known: ReadonlySet<string>): string {
  const parts = place.split(".");
  for (let n = parts.length; n > 0; n -= 1) {
    const part = parts.slice(0, n).join(".");
    if (known.has(part)) return part;
  }
  return "";
}

/** What is told, by the field at which each stands. */
export function byPlace(told: readonly Lack[], known: ReadonlySet<string>): Map<string, Lack[]> {
  const found = new Map<string, Lack[]>();
  for (const lack of told) {
    const place = nearestPlace(lack.place, known);
    found.set(place, [...(found.get(place) ?? []), lack]);
  }
  return found;
}

/** Whether the problems at a place are shown: the reader has been there, or at a field within which it lies. */
export const isTold = (place: string, touched: ReadonlySet<string>): boolean =>
  touched.has(place) || [...touched].some((one) => place.startsWith(`${one}.`));

/** Where a problem that the server found stands in the form. */
export function placeInForm(place: string, draft: Draft): string {
  const keys = new Map([...namesOf(draft)].map(([key, name]) => [name, key]));
  const parts = place.split(".");
  const [first, second, third, ...rest] = parts as [string, string?, string?, ...string[]];
  const key = (name: string | undefined): string => keys.get(name ?? "") ?? name ?? "";
  const field = (name: string | undefined): string[] =>
    name === undefined ? [] : [name === "difference" ? "ofTemperature" : name];
  const isResult = (name: string | undefined): boolean => draft.results.some((result) => result.key === key(name));
  if (first === "inputs") return second === undefined ? "rows" : ["inputs", key(second), ...parts.slice(2)].join(".");
  if (first === "negligible") return `inputs.${key(second)}.because`;
  // A point of the range names the inputs that differ there.
  if (first === "sweep" && rest[0] !== undefined && parts[3] === "inputs")
    return [...parts.slice(0, 4), key(parts[4]), ...parts.slice(5)].join(".");
  if (first !== "parameters") return place;
  switch (second) {
    case "coefficients":
      return third === undefined ? "rows" : `inputs.${key(third)}.sensitivity`;
    case "terms":
      return third === undefined ? "rows" : ["inputs", key(third), ...field(rest[0])].join(".");
    case "measurand":
      return [`results.${draft.results[0]?.key ?? ""}`, ...field(third)].join(".");
    case "quantities":
      return third === undefined
        ? "rows"
        : [isResult(third) ? "results" : "inputs", key(third), ...field(rest[0])].join(".");
    default:
      return place;
  }
}

/** A problem in words, shown at its field, so that the place is not repeated; items of lists are counted from 1. */
export function problemWords(
  { place, value, accepted }: Problem,
  at: string,
  quantities: ReadonlyMap<string, string>,
): string {
  const beyond = place.startsWith(`${at}.`) ? place.slice(at.length + 1).split(".") : [];
  const within = beyond.map((part) =>
    /^\d+$/.test(part) ? String(Number(part) + 1) : (quantities.get(part) ?? fieldName(part)),
  );
  const head = within.length === 0 ? "" : `${within.join(" ")}: `;
  return value === "nothing" || value === "undefined"
    ? fillText(words.studyLacks.needed, { head, accepted: plainWords(speech.translate(accepted), quantities) })
    : fillText(words.studyLacks.found, {
        head,
        value: /^[{[]/.test(value) ? words.studyLacks.somethingElse : plainWords(speech.translate(value), quantities),
        accepted: plainWords(speech.translate(accepted), quantities),
      });
}

/** A text of the server without the names of fields and inputs. @param quantities what a reader knows a name by */
export const plainWords = (text: string, quantities: ReadonlyMap<string, string>): string =>
  text.replaceAll(
    /\b[A-Za-z][A-Za-z0-9_]*\b/g,
    (word) => quantities.get(word) ?? (/[a-z][A-Z]/.test(word) ? fieldName(word) : word),
  );

import type { Problem } from "../../../engine/index.ts";

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

/** Problems by the field at which each is told. */
export function byPlace(problems: readonly Problem[], known: ReadonlySet<string>): Map<string, Problem[]> {
  const found = new Map<string, Problem[]>();
  for (const problem of problems) {
    const place = nearestPlace(problem.place, known);
    found.set(place, [...(found.get(place) ?? []), problem]);
  }
  return found;
}

/** A problem in words, shown at its field, so that the place is not repeated. */
export const problemWords = ({ place, value, accepted }: Problem, at: string): string => {
  const within = place.startsWith(`${at}.`) ? `${place.slice(at.length + 1)}: ` : "";
  return value === "nothing" || value === "undefined"
    ? `${within}needed: ${accepted}`
    : `${within}got ${value}; expected ${accepted}`;
};

/** Whether the problems at a place are shown: the reader has been there, or at a field within which it lies. */
export const isTold = (place: string, touched: ReadonlySet<string>): boolean =>
  touched.has(place) || [...touched].some((one) => place.startsWith(`${one}.`));

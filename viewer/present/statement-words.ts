import { plain } from "./statement.ts";

/** A field's name in words: "halfWidth" reads "half width". */
export const words = (name: string): string =>
  name.replace(/([a-z])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);

/**
 * What a statement says of an input but for its source, whatever its kind: "rectangular: estimate 0, half width 0.003".
 * Of its evidence the files alone.
 */
export function statementWords(statement: unknown): string {
  const { distribution, source: _source, evidence, ...rest } = (statement ?? {}) as Record<string, unknown>;
  const figures = Object.entries(rest).map(([field, value]) =>
    Array.isArray(value) ? listed(field, value) : `${words(field)} ${figure(value)}`,
  );
  const { files = [] } = (evidence ?? {}) as { readonly files?: readonly { readonly name: string }[] };
  if (files.length > 0) figures.push(`evidence from ${files.map(({ name }) => name).join(" and ")}`);
  return `${typeof distribution === "string" && distribution !== "" ? distribution : "no distribution stated"}: ${figures.join(", ")}`;
}

const figure = (value: unknown): string =>
  typeof value === "number" ? plain(value) : typeof value === "string" ? value : JSON.stringify(value);

/** A list by its length and, where it holds numbers, its extremes. */
function listed(field: string, values: readonly unknown[]): string {
  const numbers = values.filter((item): item is number => typeof item === "number");
  const extremes =
    numbers.length === 0 || numbers.length < values.length
      ? ""
      : ` from ${plain(Math.min(...numbers))} to ${plain(Math.max(...numbers))}`;
  return `${values.length} ${words(field)}${extremes}`;
}

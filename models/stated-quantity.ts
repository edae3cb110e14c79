import { refuse, type Quantity } from "../engine/index.ts";

/** What a study may state of a quantity that its model's parameters name. */
export type StatedQuantity = Partial<Pick<Quantity, "symbol" | "meaning" | "unit" | "difference">>;

const FIELDS = ["symbol", "meaning", "unit", "difference"] as const;

/** @throws {InputError} naming the place, if the value is no object */
export function objectAt(place: string, value: unknown, accepted: string): Readonly<Record<string, unknown>> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return refuse(place, value, accepted);
  return value as Readonly<Record<string, unknown>>;
}

/** A text that is stated, or `undefined`. @throws {InputError} naming the place, if it is empty or no text */
export function textAt(place: string, value: unknown): string | undefined {
  if (value === undefined) return undefined;
  if (typeof value !== "string" || value === "") return refuse(place, value, "a text that is not empty");
  return value;
}

/**
 * Reads what a study states of a quantity: its symbol, what it means, its unit, and whether it is a difference of
 * temperatures.
 *
 * @param others fields that may stand beside these and are read elsewhere
 * @throws {InputError} naming the field, the value and what is accepted
 */
export function statedQuantityAt(place: string, value: unknown, others: readonly string[] = []): StatedQuantity {
  const known = [...others, ...FIELDS];
  const fields = objectAt(place, value, `an object with ${known.join(", ")}`);
  for (const field of Object.keys(fields))
    if (!known.includes(field)) refuse(`${place}.${field}`, field, `one of ${known.join(", ")}`);
  const { difference } = fields;
  if (difference !== undefined && typeof difference !== "boolean")
    return refuse(`${place}.difference`, difference, "true for a difference of temperatures, else false");
  const texts = FIELDS.slice(0, 3).flatMap((field) => {
    const text = textAt(`${place}.${field}`, Object.hasOwn(fields, field) ? fields[field] : undefined);
    return text === undefined ? [] : [[field, text] as const];
  });
  return { ...Object.fromEntries(texts), ...(difference === undefined ? {} : { difference }) };
}

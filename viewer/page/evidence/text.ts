/** Between the text of a form and the fields of a description, finished or not. */

export type Bag = Readonly<Record<string, unknown>>;

/** The fields of what should be an object; none, if it is none. */
export const bag = (value: unknown): Bag =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Bag) : {};
export const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
export const text = (value: unknown): string => (value === undefined || value === null ? "" : String(value));

/** A number as it is meant, or the text as it was typed, which the server then names with its field. */
export function figure(typed: string): number | string | undefined {
  const plain = typed.trim().replace("−", "-");
  if (plain === "") return undefined;
  const value = Number(/^[+-]?\d*,\d+$/.test(plain) ? plain.replace(",", ".") : plain);
  return Number.isFinite(value) ? value : typed.trim();
}

/** Leaves out what is undefined or empty; `undefined` if nothing is left. */
export function whole(fields: Bag): Record<string, unknown> | undefined {
  const stated = Object.entries(fields).filter(([, value]) => value !== undefined && value !== "");
  return stated.length === 0 ? undefined : Object.fromEntries(stated);
}

type Json = Readonly<Record<string, unknown>>;

/** How a field is typed: one line, several lines, a longer text, a day, one of a few, a number. */
export type FieldKind = "line" | "lines" | "text" | "day" | "country" | "email" | "at" | "number";

export interface CertificateField {
  readonly name: string;
  readonly kind: FieldKind;
  /** Where it stands: under `certificate` of the calibration, or in an instrument. */
  readonly path: readonly string[];
}

/** The condition of the room that is asked for; others of the document stay as they are. */
const TEMPERATURE = "temperature";

const field = (name: string, kind: FieldKind, ...path: readonly string[]): CertificateField => ({ name, kind, path });

/** What all certificates of a calibration state, by where it stands. */
export const SHARED_FIELDS: readonly CertificateField[] = [
  field("laboratoryName", "line", "laboratory", "name"),
  field("laboratoryAddress", "lines", "laboratory", "address"),
  field("laboratoryCountry", "country", "laboratory", "country"),
  field("laboratoryEmail", "email", "laboratory", "email"),
  field("customerName", "line", "customer", "name"),
  field("customerAddress", "lines", "customer", "address"),
  field("customerCountry", "country", "customer", "country"),
  field("customerEmail", "email", "customer", "email"),
  field("location", "at", "location", "at"),
  field("performedFrom", "day", "performed", "from"),
  field("performedTo", "day", "performed", "to"),
  field("issued", "day", "issued"),
  field("method", "text", "method", "name"),
  field("lowest", "number", "conditions", TEMPERATURE, "low"),
  field("highest", "number", "conditions", TEMPERATURE, "high"),
  field("traceability", "text", "traceability"),
  field("authorised", "line", "authorised", "name"),
];

/** What the certificate of one instrument states. */
export const ITEM_FIELDS: readonly CertificateField[] = [
  field("number", "line", "certificate", "number"),
  field("description", "line", "description"),
  field("manufacturer", "line", "certificate", "manufacturer"),
  field("type", "line", "certificate", "type"),
  field("received", "day", "certificate", "received"),
  field("condition", "text", "certificate", "condition"),
  field("adjustment", "text", "certificate", "adjustment"),
];

const isTemperature = (condition: unknown): boolean => (condition as Json)["quantity"] === TEMPERATURE;

const within = (value: unknown, key: string): unknown =>
  Array.isArray(value)
    ? value.find(isTemperature)
    : typeof value === "object" && value !== null
      ? (value as Json)[key]
      : undefined;

/** What stands in a field, as a person types it; empty if nothing does. */
export function textOf(of: unknown, { path, kind }: CertificateField): string {
  const value = path.reduce(within, of);
  if (value === undefined || value === null) return "";
  return kind === "lines" && Array.isArray(value) ? value.join("\n") : String(value);
}

/** The same object with a field as it was typed; an empty one is left out, and so is what then has nothing in it. */
export function withText(of: unknown, { path, kind }: CertificateField, text: string): Json {
  const typed = text.trim();
  const value =
    typed === ""
      ? undefined
      : kind === "lines"
        ? typed
            .split("\n")
            .map((line) => line.trim())
            .filter((line) => line !== "")
        : kind === "number"
          ? Number(typed)
          : typed;
  return (put(of, path, value) ?? {}) as Json;
}

function put(of: unknown, path: readonly string[], value: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  const inner = put(within(of, key), rest, value);
  if (key === TEMPERATURE) {
    const others = Array.isArray(of) ? of.filter((condition) => !isTemperature(condition)) : [];
    const bare = inner === undefined || Object.keys(inner as Json).every((name) => name === "quantity");
    const list: readonly unknown[] = bare ? others : [{ quantity: TEMPERATURE, ...(inner as Json) }, ...others];
    return list.length === 0 ? undefined : list;
  }
  const entries = Object.entries((of ?? {}) as Json).filter(([name]) => name !== key);
  if (inner !== undefined) entries.push([key, inner]);
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}

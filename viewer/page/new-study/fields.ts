import type { FieldUnit, FieldUnits } from "../../../engine/internal.ts";

/** How a field of a statement is written: a number, a list of numbers, a text, or JSON for what has parts of its own. */
export type FieldShape = "number" | "numbers" | "text" | "json";

export interface Field {
  readonly name: string;
  readonly shape: FieldShape;
  readonly required: boolean;
  /** The unit its figures have; `null` if it is no figure. */
  readonly unit: FieldUnit | null;
  /** One sentence for people. */
  readonly help: string;
}

/** A kind of distribution with its fields, those that must be given first. */
export interface Kind {
  readonly name: string;
  readonly fields: readonly Field[];
}

interface Schema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly type?: string;
  readonly const?: unknown;
  readonly description?: string;
  readonly unit?: FieldUnit;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
  readonly required?: readonly string[];
  readonly items?: Schema | boolean;
  readonly oneOf?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
}

/** The kinds of distribution a study may state, from its JSON Schema. */
export function kindsOf(document: unknown): Kind[] {
  const root = document as Schema;
  const inputs = root.properties?.["inputs"]?.additionalProperties;
  const statement = typeof inputs === "object" ? resolved(root, inputs) : undefined;
  return (statement?.oneOf ?? statement?.anyOf ?? []).map((kind) => {
    const { properties = {}, required = [] } = resolved(root, kind);
    const fields = Object.entries(properties)
      .filter(([name]) => name !== "distribution" && name !== "source")
      .map(([name, field]): Field => ({
        name,
        shape: shapeOf(resolved(root, field)),
        required: required.includes(name),
        unit: field.unit ?? null,
        help: field.description ?? "",
      }));
    return {
      name: String(properties["distribution"]?.const),
      fields: [...fields.filter((field) => field.required), ...fields.filter((field) => !field.required)],
    };
  });
}

function resolved(root: Schema, schema: Schema): Schema {
  const name = /^#\/\$defs\/(.+)$/.exec(schema.$ref ?? "")?.[1];
  return name === undefined ? schema : (root.$defs?.[name] ?? schema);
}

function shapeOf({ type, items }: Schema): FieldShape {
  if (type === "number" || type === "integer") return "number";
  if (type === "array" && typeof items === "object" && (items.type === "number" || items.type === "integer"))
    return "numbers";
  return type === "string" ? "text" : "json";
}

/** Whether the form has a control for a field: what has parts of its own and may be left out is kept as it is. */
export const isShown = ({ shape, required }: Field): boolean => required || shape !== "json";

/** The units of each kind's figures, by the kind's name. */
export const unitsOf = (kinds: readonly Kind[]): ReadonlyMap<string, FieldUnits> =>
  new Map(
    kinds.map(({ name, fields }) => [
      name,
      Object.fromEntries(fields.flatMap((field) => (field.unit === null ? [] : [[field.name, field.unit]]))),
    ]),
  );

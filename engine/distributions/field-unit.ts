import type * as z from "zod";

/**
 * The unit of a figure of a statement: that of the input, its inverse (a density), one (a shape, a probability, a
 * factor), or a number of entities (objects, events).
 */
export type FieldUnit = "input" | "inverse" | "one" | "count";

/** A field's description and unit, as its schema carries both (and the JSON Schema publishes them). */
interface FieldMeaning {
  readonly [key: string]: unknown;
  readonly description: string;
  readonly unit: FieldUnit;
}

const withUnit =
  (unit: FieldUnit) =>
  (description: string): FieldMeaning => ({ description, unit });

/** A figure in the unit of the input. */
export const inUnit = withUnit("input");
/** A figure in the inverse of the input's unit. */
export const perUnit = withUnit("inverse");
/** A figure of dimension one. */
export const ofOne = withUnit("one");
/** A number of entities. */
export const counted = withUnit("count");

/** The units declared for the fields of a statement, by field; fields that are not figures are absent. */
export type FieldUnits = Readonly<Record<string, FieldUnit>>;

/** The units that the schema of a statement declares for its fields. */
export function declaredUnits({ shape }: z.ZodObject): FieldUnits {
  const declared = Object.entries(shape).flatMap(([name, field]): [string, FieldUnit][] => {
    const unit = (field as z.ZodType).meta()?.["unit"] as FieldUnit | undefined;
    return unit === undefined ? [] : [[name, unit]];
  });
  return Object.fromEntries(declared);
}

import type { FieldUnits } from "../../engine/internal.ts";
import { readSchema } from "./api.ts";
import { kindsOf, unitsOf } from "./new-study/fields.ts";

type UnitsByKind = ReadonlyMap<string, FieldUnits>;

let asked: Promise<UnitsByKind> | null = null;

/** The units that each kind of distribution declares for its figures, asked from the server once. */
export function declaredUnits(): Promise<UnitsByKind> {
  asked ??= readSchema().then(
    (schema) => unitsOf(kindsOf(schema)),
    (error: unknown) => {
      asked = null;
      throw error;
    },
  );
  return asked;
}

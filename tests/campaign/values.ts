import type { Schema } from "../../server/openapi/schema-html.ts";
import type { Chance } from "./chance.ts";

/** Texts that have broken programs: words of JavaScript, control characters, halves of characters, paths, markup, formulas. */
export const HOSTILE_TEXTS: readonly string[] = [
  "",
  " ",
  "constructor",
  "__proto__",
  "toString",
  "null",
  "NaN",
  "-0",
  "1e999",
  "0x10",
  "١٢",
  "\u0000",
  "\u2028",
  "\ud800",
  "\u001b[2J",
  "../../../etc/passwd",
  "..",
  "%2e%2e%2f",
  "%",
  "<script>alert(1)</script>",
  "'; DROP TABLE runs; --",
  "=1+1",
  "a".repeat(5000),
];

const HOSTILE_VALUES: readonly unknown[] = [
  null,
  true,
  0,
  -0,
  -1,
  0.5,
  1e308,
  5e-324,
  2 ** 53,
  -1e298,
  [],
  {},
  [[]],
  { __proto__: 1 },
  JSON.parse('{"__proto__":{"x":1},"constructor":{}}'),
  Array.from({ length: 300 }, (_, i) => i),
  ...HOSTILE_TEXTS,
];

export const hostileValue = (chance: Chance): unknown => chance.pick(HOSTILE_VALUES);

/** Objects and lists within each other that a made value has at most. */
const DEEPEST = 6;

/** A value that fits a schema, where its words allow to say so. */
export function valueOf(schema: Schema, schemas: Readonly<Record<string, Schema>>, chance: Chance, depth = 0): unknown {
  if (schema.$ref !== undefined)
    return valueOf(schemas[schema.$ref.slice(schema.$ref.lastIndexOf("/") + 1)]!, schemas, chance, depth);
  if (schema.const !== undefined) return schema.const;
  if (schema.enum !== undefined) return chance.pick(schema.enum);
  const several = schema.anyOf ?? schema.oneOf;
  if (several !== undefined) return valueOf(chance.pick(several), schemas, chance, depth);
  const type = schema.type === undefined ? "string" : chance.pick([schema.type].flat());
  switch (type) {
    case "string":
      return schema.format === "date-time" ? "2026-03-02T09:30:00.000Z" : chance.pick(["a", "x1", "K", "length", "0"]);
    case "boolean":
      return chance.often(0.5);
    case "null":
      return null;
    case "integer":
      return numberIn(schema, chance, 1);
    case "number":
      return numberIn(schema, chance, 0.1);
    case "array":
      return depth > DEEPEST
        ? []
        : (
            schema.prefixItems ??
            Array.from({ length: (schema.minItems ?? 0) + chance.below(3) }, () => schema.items ?? {})
          ).map((item) => valueOf(item, schemas, chance, depth + 1));
    default:
      return objectOf(schema, schemas, chance, depth);
  }
}

function numberIn(
  { minimum, exclusiveMinimum, maximum, exclusiveMaximum }: Schema,
  chance: Chance,
  step: number,
): number {
  const low = minimum ?? (exclusiveMinimum === undefined ? 0 : exclusiveMinimum + step);
  const high = maximum ?? (exclusiveMaximum === undefined ? low + 10 : exclusiveMaximum - step);
  const steps = Math.max(0, Math.floor((high - low) / step));
  return chance.often(0.2) ? low : low + step * chance.below(Math.min(steps, 20) + 1);
}

function objectOf(schema: Schema, schemas: Readonly<Record<string, Schema>>, chance: Chance, depth: number): object {
  const { properties = {}, required = [], additionalProperties } = schema;
  const fields = Object.entries(properties)
    .filter(([name]) => required.includes(name) || (depth <= DEEPEST && chance.often(0.4)))
    .map(([name, field]) => [name, valueOf(field, schemas, chance, depth + 1)] as const);
  const more =
    typeof additionalProperties === "object" && depth <= DEEPEST
      ? ["a", "b"]
          .slice(chance.below(3))
          .map((name) => [name, valueOf(additionalProperties, schemas, chance, depth + 1)] as const)
      : [];
  return Object.fromEntries([...fields, ...more]);
}

/** The same value with one place of it changed: left out, of another kind, added to, or hostile. */
export function nearly(value: unknown, chance: Chance): unknown {
  if (typeof value !== "object" || value === null || chance.often(0.1)) return hostileValue(chance);
  if (Array.isArray(value)) {
    const changed = [...(value as unknown[])];
    if (changed.length === 0 || chance.often(0.2)) return [...changed, hostileValue(chance)];
    const i = chance.below(changed.length);
    if (chance.often(0.2)) changed.splice(i, 1);
    else changed[i] = nearly(changed[i], chance);
    return changed;
  }
  const entries = Object.entries(value as Record<string, unknown>);
  if (entries.length === 0 || chance.often(0.15))
    return Object.fromEntries([...entries, [chance.pick(HOSTILE_TEXTS), hostileValue(chance)]]);
  const [name, inner] = chance.pick(entries);
  const others = entries.filter(([other]) => other !== name);
  return Object.fromEntries(chance.often(0.15) ? others : [...others, [name, nearly(inner, chance)]]);
}

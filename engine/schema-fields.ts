import type * as z from "zod";

/** What is read of a schema's definition, whatever its kind. */
interface Definition {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly valueType?: z.ZodType;
  readonly element?: z.ZodType;
  readonly innerType?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly discriminator?: string;
  readonly getter?: () => z.ZodType;
  readonly in?: z.ZodType;
}

/** The fields that a schema has at a place of a document; empty where it has none, or any. */
export function fieldsAt(schema: z.ZodType, document: unknown, path: readonly PropertyKey[]): readonly string[] {
  const definition = schema.def as unknown as Definition;
  const inner = definition.innerType ?? definition.in ?? definition.getter?.();
  if (inner !== undefined) return fieldsAt(inner, document, path);
  if (definition.options !== undefined) {
    const mark = definition.discriminator;
    const fits = (option: z.ZodType): boolean =>
      mark === undefined || literals(option, mark).includes(fieldOf(document, mark));
    return definition.options.filter(fits).flatMap((option) => fieldsAt(option, document, path));
  }
  const [key, ...rest] = path;
  if (key === undefined) return Object.keys(definition.shape ?? {});
  const next = definition.shape?.[String(key)] ?? definition.valueType ?? definition.element;
  return next === undefined ? [] : fieldsAt(next, fieldOf(document, key), rest);
}

const fieldOf = (document: unknown, key: PropertyKey): unknown =>
  typeof document === "object" && document !== null ? (document as Record<PropertyKey, unknown>)[key] : undefined;

/** The values of the field by which the options of a union are told apart. */
function literals(option: z.ZodType, mark: string): readonly unknown[] {
  const field = (option.def as unknown as Definition).shape?.[mark];
  return [...((field as z.ZodLiteral | undefined)?.values ?? [])];
}

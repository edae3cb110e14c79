import { html, joinMarkup, type Child, type Markup } from "../../viewer/report/markup.ts";

/** A JSON Schema as a document has it. */
export interface Schema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly description?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly format?: string;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
  readonly exclusiveMaximum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
}

export const schemaName = (ref: string): string => ref.slice(ref.lastIndexOf("/") + 1);
export const schemaAnchor = (name: string): string => `schema-${name}`;

const linkTo = (ref: string): Markup => {
  const name = schemaName(ref);
  return html`<a href="#${schemaAnchor(name)}">${name}</a>`;
};

const TYPES: Readonly<Record<string, string>> = {
  string: "text",
  number: "number",
  integer: "whole number",
  boolean: "true or false",
  null: "null",
  object: "object",
  array: "list",
};

/** What a value may be, in words, with links to the schemas it refers to. */
export function typeOf(schema: Schema): Markup {
  if (schema.$ref !== undefined) return linkTo(schema.$ref);
  if (schema.const !== undefined) return html`<code>${JSON.stringify(schema.const)}</code>`;
  if (schema.enum !== undefined) return either(schema.enum.map((value) => html`<code>${JSON.stringify(value)}</code>`));
  const several = schema.anyOf ?? schema.oneOf;
  if (several !== undefined) return either(several.map(typeOf));
  const types = schema.type === undefined ? [] : [schema.type].flat();
  if (types.length > 1) return either(types.map((type) => typeOf({ ...schema, type })));
  const type = types[0];
  if (type === undefined) return html`anything`;
  if (type === "array") return listOf(schema);
  if (type === "object") return objectOf(schema);
  return html`${TYPES[type] ?? type}${schema.format === undefined ? null : `, ${schema.format}`}${limitsOf(schema)}`;
}

const either = (kinds: readonly Markup[]): Markup => joinMarkup(kinds, " or ");

function listOf({ items, prefixItems, minItems, maxItems }: Schema): Markup {
  if (prefixItems !== undefined) return html`list of ${joinMarkup(prefixItems.map(typeOf), " and ")}`;
  const count =
    minItems === undefined && maxItems === undefined ? null : `${minItems ?? 0} to ${maxItems ?? "any number"} of `;
  return html`list of ${count}${items === undefined ? "anything" : typeOf(items)}`;
}

function objectOf({ properties, additionalProperties }: Schema): Markup {
  if (properties !== undefined) return html`object`;
  return typeof additionalProperties === "object" && Object.keys(additionalProperties).length > 0
    ? html`object, each field of it ${typeOf(additionalProperties)}`
    : html`object`;
}

function limitsOf({ minimum, exclusiveMinimum, maximum, exclusiveMaximum }: Schema): string {
  const limits = [
    minimum === undefined ? null : `at least ${minimum}`,
    exclusiveMinimum === undefined ? null : `greater than ${exclusiveMinimum}`,
    maximum === undefined ? null : `at most ${maximum}`,
    exclusiveMaximum === undefined ? null : `less than ${exclusiveMaximum}`,
  ].filter((limit) => limit !== null);
  return limits.length === 0 ? "" : `, ${limits.join(" and ")}`;
}

/** The fields of a schema, those within them indented below; the kinds of a union one after the other. */
export function fieldsOf(schema: Schema): Markup {
  const kinds = (schema.oneOf ?? schema.anyOf ?? []).filter(({ properties }) => properties !== undefined);
  if (kinds.length > 0)
    return html`<ul class="kinds">
      ${kinds.map((kind) => html`<li>${fieldsOf(kind)}</li>`)}
    </ul>`;
  const { properties, required = [] } = schema;
  if (properties === undefined) return html`<p>${typeOf(schema)}</p>`;
  return html`<dl class="fields">
    ${Object.entries(properties).map(
      ([name, field]) =>
        html`<div>
          <dt><code>${name}</code>${required.includes(name) ? null : html` <span class="may">optional</span>`}</dt>
          <dd>${typeOf(field)}${sentence(field.description)}${within(field)}</dd>
        </div>`,
    )}
  </dl>`;
}

const sentence = (text: string | undefined): Child =>
  text === undefined || text === "" ? null : html`<span class="means">${text}</span>`;

/** The fields of an object that has no schema of its own, also where it stands in a list or may be null. */
function within(field: Schema): Child {
  const inner = [field, field.items, typeof field.additionalProperties === "object" ? field.additionalProperties : null]
    .flatMap((one) => (one === undefined || one === null ? [] : [one, ...(one.anyOf ?? []), ...(one.oneOf ?? [])]))
    .filter(({ $ref, properties }) => $ref === undefined && properties !== undefined);
  return inner.map(fieldsOf);
}

import type { Field, Kind } from "./fields.ts";
import { HOW_CELLS, howOf, howOfStatement, type How } from "./hows.ts";
import { resolvedPart } from "./relative.ts";
import { isFilled, jsonOr, listText, numberOr, numbersOr } from "./typed.ts";

/** Whether a quantity in °C is a difference of temperatures or a temperature; "" before it is asked. */
export type OfTemperature = "" | "difference" | "temperature";

/** One input quantity as it stands in the table: texts, whether they can be read or not. */
export interface Row {
  /** Its name in the study, or a key of the form alone (`isNewKey`); another row never has the same. */
  readonly key: string;
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
  readonly ofTemperature: OfTemperature;
  /** Id of the way in which it is known; "" before one is chosen. */
  readonly how: string;
  /** By the study's field; fields of other ways stay, so that nothing is lost on the way from one to the next. */
  readonly fields: Readonly<Record<string, string>>;
  /** The coefficient of a sum of terms. */
  readonly sensitivity: string;
  /** Why an optional input is left out. */
  readonly because: string;
  /** What the form has no field for, kept as it was: the evidence of its figures. */
  readonly rest: Readonly<Record<string, unknown>>;
}

export const BLANK_ROW: Row = {
  key: "row-1",
  symbol: "",
  meaning: "",
  unit: "",
  ofTemperature: "",
  how: "",
  fields: {},
  sensitivity: "1",
  because: "",
  rest: {},
};

/** Names of a study have no hyphen, so that none is taken for a key of the form. */
export const isNewKey = (key: string): boolean => key.includes("-");

/** A key that no row has. */
export function newKey(rows: readonly { readonly key: string }[]): string {
  const taken = new Set(rows.map(({ key }) => key));
  let n = rows.length + 1;
  while (taken.has(`row-${n}`)) n += 1;
  return `row-${n}`;
}

/** Whether nothing was typed into a row; a unit and a coefficient are taken over from the row above. */
export const isEmptyRow = ({ symbol, meaning, how, fields, because }: Row): boolean =>
  [symbol, meaning, how, because, ...Object.values(fields)].every((text) => !isFilled(text));

/** The kind of distribution that a row states. */
export const kindOf = ({ fields }: Pick<Row, "fields">, how: How): string =>
  how.withNu !== undefined && isFilled(fields["degreesOfFreedom"]) ? how.withNu : how.kind;

const columnsOf = (how: How): string[] => HOW_CELLS.flatMap((cell) => how[cell]?.field ?? []);

/** The fields of a row that have no column: they stand in the row that opens below. */
export const furtherFields = (how: How, kinds: readonly Kind[]): Field[] => {
  const own = [how.kind, how.withNu].flatMap((name) => kinds.find((kind) => kind.name === name)?.fields ?? []);
  const columns = new Set([...columnsOf(how), ...(how.without ?? []), "unit", "evidence"]);
  return own.filter(({ name }, i) => !columns.has(name) && own.findIndex((field) => field.name === name) === i);
};

const READ: Readonly<Record<Field["shape"], (text: string) => unknown>> = {
  number: numberOr,
  numbers: numbersOr,
  text: (text) => text.trim(),
  json: jsonOr,
};

/** What a study states of a row. */
export function statementOf(row: Row, kinds: readonly Kind[]): Readonly<Record<string, unknown>> {
  const how = howOf(row.how);
  if (how === undefined) return { distribution: row.how, ...row.rest };
  const name = kindOf(row, how);
  const without = new Set(how.without ?? []);
  const given = (kinds.find((kind) => kind.name === name)?.fields ?? [])
    .filter((field) => !without.has(field.name) && isFilled(row.fields[field.name]))
    .map(
      (field) =>
        [field.name, resolvedPart(field.name, row.fields) ?? READ[field.shape](row.fields[field.name]!)] as const,
    );
  return {
    distribution: name,
    ...Object.fromEntries(given),
    ...(isFilled(row.fields["source"]) ? { source: row.fields["source"].trim() } : {}),
    ...row.rest,
  };
}

/** The part of a row that a statement of a study fills. */
export function rowPart(stated: Readonly<Record<string, unknown>>): Pick<Row, "how" | "fields" | "rest"> {
  const { distribution, evidence, ...others } = stated;
  const fields = Object.fromEntries(Object.entries(others).map(([field, value]) => [field, textOf(value)]));
  return {
    how: distribution === undefined ? "" : howOfStatement(textOf(distribution), fields),
    fields,
    rest: evidence === undefined ? {} : { evidence },
  };
}

/** A value of a study as the form shows it. */
export const textOf = (value: unknown): string =>
  value === undefined || value === null
    ? ""
    : typeof value === "string" || typeof value === "number"
      ? String(value)
      : Array.isArray(value) && value.every((item) => typeof item === "number")
        ? listText(value)
        : JSON.stringify(value);

/**
 * A row known in another way. The figures that were typed stay in their cells: who takes limits for a standard
 * uncertainty corrects what the figure means, not the figure.
 */
export function withHow(row: Row, id: string): Row {
  const [before, after] = [howOf(row.how), howOf(id)];
  const fields: Record<string, string> = { ...row.fields };
  if (before !== undefined && after !== undefined)
    for (const cell of HOW_CELLS) {
      const [from, to] = [before[cell]?.field, after[cell]?.field];
      if (from === undefined || to === undefined || from === to || !isFilled(fields[from])) continue;
      if (columnsOf(after).includes(from) || isFilled(fields[to])) continue;
      fields[to] = fields[from];
      delete fields[from];
    }
  return { ...row, how: id, fields };
}

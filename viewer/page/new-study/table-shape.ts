import { speech } from "../language.ts";
import type { Quantity } from "../../../engine/index.ts";
import { declaredBy, rowOf, type Declared, type Draft } from "./draft.ts";
import { isPlain } from "./from-study.ts";
import type { Row } from "./row.ts";

/** Which rows the table has: those that the study declares, or those of a model's inputs. */
export interface TableShape {
  readonly declared: Declared | null;
  /** A model's inputs by name; none if the study declares its own. */
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly optional: ReadonlySet<string>;
  readonly measurands: Readonly<Record<string, Quantity>>;
}

export const NO_SHAPE: TableShape = { declared: null, inputs: {}, optional: new Set(), measurands: {} };

/** The rows as the table shows them: those of a model carry its symbols, meanings and units. */
export function shownRows(draft: Draft, { declared, inputs }: TableShape): readonly Row[] {
  if (declared !== null) return draft.rows;
  return Object.entries(inputs).map(([key, quantity]) => {
    const row = rowOf(draft, key);
    return {
      ...row,
      symbol: quantity.symbol,
      meaning: speech.translate(quantity.meaning),
      unit: row.fields["unit"]?.trim() || quantity.unit,
    };
  });
}

/** The draft with the rows of the table: of a model's inputs it keeps what is stated, since the rest is the model's. */
export function withShownRows(draft: Draft, { declared, inputs }: TableShape, rows: readonly Row[]): Draft {
  if (declared !== null) return { ...draft, rows };
  const kept = rows.map((row): Row => {
    const own = inputs[row.key]!.unit;
    const { unit: _unit, ...fields } = row.fields;
    const unit = row.unit.trim();
    return {
      ...row,
      symbol: "",
      meaning: "",
      unit: "",
      // A unit that was stated, though it is the model's, stays stated.
      fields: unit === "" || (unit === own && row.fields["unit"]?.trim() !== own) ? fields : { ...fields, unit },
    };
  });
  const shown = new Set(kept.map(({ key }) => key));
  // What was typed for another model stays, for who goes back to it.
  return { ...draft, rows: [...kept, ...draft.rows.filter(({ key }) => !shown.has(key))] };
}

/** Whether it is asked of a quantity if it is a difference: its term is one in °C, although its figures may be in K. */
export function asksTemperature(draft: Draft, row: Row): boolean {
  const declared = declaredBy(draft);
  if (declared === null) return false;
  if (row.unit.trim() === "°C") return true;
  return (
    declared === "additive" &&
    draft.results[0]?.unit.trim() === "°C" &&
    row.unit.trim() === "K" &&
    isPlain(row.sensitivity)
  );
}

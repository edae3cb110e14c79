import type { Quantity } from "../../../engine/index.ts";
import type { Draft, ResultDraft } from "./draft.ts";
import { BLANK_ROW, isEmptyRow, isNewKey, type Row } from "./row.ts";
import { namesOf, parametersOf } from "./to-study.ts";

/** What an equation was read to take and to give, by the names that the study uses. */
export interface ReadNames {
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly measurands: Readonly<Record<string, Quantity>>;
}

/** A symbol that an equation may have as it stands, without a row that states it. */
const isPlainName = (symbol: string): boolean => /^\p{L}[\p{L}\p{Nd}_′]*$/u.test(symbol.trim());

/** A row that came with the equation, and of which nothing else is known: it goes with the equation too. */
const isLooseRow = (row: Row): boolean =>
  !isNewKey(row.key) && isPlainName(row.symbol) && isEmptyRow({ ...row, symbol: "" });
const isLooseResult = ({ symbol, meaning, unit }: ResultDraft): boolean =>
  isPlainName(symbol) && meaning.trim() === "" && unit.trim() === "";

/** What the table states of an equation's quantities, for its check. */
export function statedQuantities(draft: Draft): Readonly<Record<string, object>> {
  const { quantities = {} } = parametersOf({
    ...draft,
    rows: draft.rows.filter((row) => !isLooseRow(row)),
    results: draft.results.filter((result) => !isLooseResult(result)),
  });
  return quantities as Readonly<Record<string, object>>;
}

/**
 * The draft with a row for each input and each result of its equation; rows of which nothing is known but a name that
 * the equation no longer has go. The same draft if it has them all.
 */
export function withEquationRows(draft: Draft, { inputs, measurands }: ReadNames): Draft {
  const names = namesOf(draft);
  const named = new Set(draft.rows.filter((row) => !isEmptyRow(row)).map(({ key }) => names.get(key)!));
  const added = Object.entries(inputs)
    .filter(([name]) => !named.has(name))
    .map(([name, { symbol }]): Row => ({ ...BLANK_ROW, key: name, symbol, sensitivity: "" }));
  // An empty row is there to be typed into, until rows come by themselves.
  const kept = draft.rows.filter((row) =>
    isEmptyRow(row) ? added.length === 0 : !isLooseRow(row) || Object.hasOwn(inputs, names.get(row.key)!),
  );
  const results = draft.results.filter(
    (result) => !isLooseResult(result) || Object.hasOwn(measurands, names.get(result.key)!),
  );
  const known = new Set(results.map(({ key }) => names.get(key)!));
  const more = Object.entries(measurands)
    .filter(([name]) => !known.has(name))
    .map(([name, { symbol }]): ResultDraft => ({ key: name, symbol, meaning: "", unit: "", ofTemperature: "" }));
  const same =
    added.length + more.length === 0 && kept.length === draft.rows.length && results.length === draft.results.length;
  return same ? draft : { ...draft, rows: [...kept, ...added], results: [...results, ...more] };
}

import { words as pageWords } from "../later-words.ts";
import type { ColumnMeaning, RowMeaning } from "../../api/budget-tables.ts";

/** What a column can be, in the words of its picker. */
export interface ColumnChoice {
  readonly value: string;
  readonly words: string;
  readonly states: Pick<ColumnMeaning, "field"> & Partial<Pick<ColumnMeaning, "stated">>;
}

const plain = (field: NonNullable<ColumnMeaning["field"]>, words: string): ColumnChoice => ({
  value: field,
  words,
  states: { field },
});
const stated = (value: NonNullable<ColumnMeaning["stated"]> | null, words: string): ColumnChoice => ({
  value: `stated ${value ?? "by row"}`,
  words,
  states: { field: "stated", stated: value },
});

export const COLUMN_CHOICES: readonly ColumnChoice[] = [
  { value: "", words: pageWords.import.columns.none, states: { field: null } },
  plain("quantity", pageWords.import.columns.quantity),
  plain("symbol", pageWords.import.columns.symbol),
  plain("estimate", pageWords.import.columns.estimate),
  plain("unit", pageWords.import.columns.unit),
  { value: "standard", words: pageWords.import.columns.standard, states: { field: "standard", stated: "standard" } },
  stated("half-width", pageWords.import.columns.halfWidth),
  stated("expanded", pageWords.import.columns.expanded),
  stated("full-width", pageWords.import.columns.fullWidth),
  stated("deviation", pageWords.import.columns.deviation),
  stated(null, pageWords.import.columns.byRow),
  plain("lower", pageWords.import.columns.lower),
  plain("upper", pageWords.import.columns.upper),
  plain("howStated", pageWords.import.columns.how),
  plain("distribution", pageWords.import.columns.distribution),
  plain("type", pageWords.import.columns.type),
  plain("divisor", pageWords.import.columns.divisor),
  plain("sensitivity", pageWords.import.columns.sensitivity),
  plain("degreesOfFreedom", pageWords.import.columns.nu),
  plain("readings", pageWords.import.columns.readings),
  plain("contribution", pageWords.import.columns.contribution),
  plain("share", pageWords.import.columns.share),
  plain("source", pageWords.import.columns.source),
];

/** The choice that a column stands at. */
export function choiceOf({ field, stated: kind }: ColumnMeaning): string {
  if (field === null) return "";
  return field === "stated" ? `stated ${kind ?? "by row"}` : field;
}

/** Columns whose figures have a unit. */
export const HAS_UNIT: ReadonlySet<string> = new Set([
  "estimate",
  "stated",
  "standard",
  "lower",
  "upper",
  "sensitivity",
  "contribution",
]);

export const ROW_WORDS: Readonly<Record<RowMeaning["is"], string>> = {
  input: pageWords.import.rows.input,
  total: pageWords.import.rows.total,
  result: pageWords.import.rows.result,
  expanded: pageWords.import.rows.expanded,
  "left-out": pageWords.import.rows.leftOut,
};

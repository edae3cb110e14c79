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
  { value: "", words: "Not used", states: { field: null } },
  plain("quantity", "Quantity"),
  plain("symbol", "Symbol"),
  plain("estimate", "Estimate (value)"),
  plain("unit", "Unit"),
  { value: "standard", words: "Standard uncertainty u", states: { field: "standard", stated: "standard" } },
  stated("half-width", "Uncertainty: half-width"),
  stated("expanded", "Uncertainty: expanded, U"),
  stated("full-width", "Uncertainty: full width"),
  stated(null, "Uncertainty: as each row says"),
  plain("lower", "Lower limit"),
  plain("upper", "Upper limit"),
  plain("howStated", "How the uncertainty is stated"),
  plain("distribution", "Distribution"),
  plain("type", "Type A or B"),
  plain("divisor", "Divisor or coverage factor"),
  plain("sensitivity", "Sensitivity coefficient"),
  plain("degreesOfFreedom", "Degrees of freedom"),
  plain("contribution", "Contribution, to compare"),
  plain("share", "Share in %, not used"),
  plain("source", "Source or remark"),
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
  input: "Input",
  total: "Total",
  result: "Result",
  expanded: "Expanded",
  "left-out": "Left out",
};

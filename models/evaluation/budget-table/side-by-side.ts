import { columnLetter, type TableRow } from "../table/table.ts";
import { textOf } from "./cells.ts";
import type { BudgetField } from "./fields.ts";
import { meaningOfHeading } from "./headings.ts";
import type { MappingQuestion, StatedMapping } from "./mapping.ts";

/** Columns of one table, from the first up to and without the last. */
export interface ColumnRange {
  readonly from: number;
  readonly to: number;
}

const UNCERTAIN: readonly BudgetField[] = ["stated", "standard", "contribution"];

/** Tables that stand one beside the other under one row of headings: each names quantities and their uncertainties anew. */
export function tablesBeside(headings: readonly string[]): readonly ColumnRange[] {
  const fields = headings.map((heading) => (heading.trim() === "" ? null : (meaningOfHeading(heading)?.field ?? null)));
  const starts = fields.flatMap((field, i) => (field === "quantity" ? [i] : []));
  const ranges = starts.map((from, n) => {
    const end = starts[n + 1] ?? headings.length;
    return { from, to: 1 + headings.slice(0, end).findLastIndex((heading) => heading.trim() !== "") };
  });
  const whole = ranges.filter(({ from, to }) => {
    const own = new Set(fields.slice(from, to).filter((field) => field !== null));
    return own.size >= 3 && UNCERTAIN.some((field) => own.has(field));
  });
  return whole.length > 1 && whole.length === ranges.length ? whole : [];
}

/** What an answer states: the columns of the other tables are not used. */
export const onlyColumns = (range: ColumnRange, width: number): NonNullable<StatedMapping["columns"]> =>
  Object.fromEntries(
    Array.from({ length: width }, (_, i) => i)
      .filter((i) => i < range.from || i >= range.to)
      .map((i) => [columnLetter(i), { field: null }]),
  );

export function besideQuestion(
  ranges: readonly ColumnRange[],
  headings: readonly string[],
  rows: readonly TableRow[],
  firstHeading: number,
): MappingQuestion {
  const columns = ({ from, to }: ColumnRange): string => `columns ${columnLetter(from)} to ${columnLetter(to - 1)}`;
  const titleOf = ({ from, to }: ColumnRange): string => {
    const above = rows.findLast(
      ({ row, cells }) => row < firstHeading && cells.slice(from, to).some((cell) => textOf(cell) !== ""),
    );
    const text = (above?.cells.slice(from, to) ?? []).map(textOf).find((one) => one !== "");
    return text === undefined ? "" : `: ${text.slice(0, 60)}`;
  };
  return {
    id: "beside",
    question: "Which of the tables side by side is the budget?",
    because: `The headings name quantities and their uncertainties ${ranges.length} times, in ${ranges.map(columns).join(" and ")}.`,
    rows: [firstHeading],
    columns: ranges.map(({ from }) => columnLetter(from)),
    answers: ranges.map((range) => ({
      answer: `The one in ${columns(range)}${titleOf(range)}`,
      states: { columns: onlyColumns(range, headings.length) },
    })),
  };
}

import type { TableRow } from "../table/table.ts";
import { isDate, looksLikeFigure, textOf } from "./cells.ts";
import type { BudgetField, RowKind } from "./fields.ts";
import type { MappedTable } from "./mapped-table.ts";
import { labelOf } from "./read-row.ts";
import { sumWordIn } from "./vocabulary/index.ts";

/** What a row is taken for; `unsure` if it may as well sum up the inputs above it. */
export interface RowGuess {
  readonly row: number;
  readonly is: RowKind;
  readonly unsure: boolean;
  readonly label: string;
}

const TERM_FIELDS = ["howStated", "distribution", "type", "divisor", "sensitivity"] as const;
const FIGURES = ["estimate", "stated", "standard", "lower", "upper", "contribution"] as const;

/** Takes every row below the headings for what its cells and words say. Blank rows are passed over. */
export function classifyRows(table: MappedTable, below: readonly TableRow[]): readonly RowGuess[] {
  const rows = below.filter(({ cells }) => cells.some((cell) => textOf(cell) !== ""));
  // What the inputs of this table have beside their figure: a row without it is of another kind.
  const usual = TERM_FIELDS.filter((field) => rows.filter((row) => table.has(row, field)).length > rows.length / 2);
  const guesses: RowGuess[] = [];
  for (const row of rows)
    guesses.push(
      guess(table, row, usual, {
        inputs: guesses.some(({ is }) => is === "input"),
        sums: guesses.some(({ is }) => is === "total" || is === "expanded" || is === "result"),
      }),
    );
  return guesses;
}

/** The sums of budgets are followed by who made them and when. */
interface Above {
  readonly inputs: boolean;
  readonly sums: boolean;
}

function guess(table: MappedTable, row: TableRow, usual: readonly BudgetField[], above: Above): RowGuess {
  const below = above.inputs;
  const label = labelOf(table, row);
  const as = (is: RowKind, unsure = false): RowGuess => ({ row: row.row, is, unsure, label });
  const has = (field: BudgetField): boolean => table.has(row, field);
  const figures = FIGURES.filter((field) => has(field) && looksLikeFigure(table.cell(row, field)));
  const said = FIGURES.filter(has);
  // Whoever named a unit or a distribution meant an input: without a figure it is asked for, never passed over.
  const meant = (["unit", ...TERM_FIELDS, "degreesOfFreedom"] as const).some(has);
  if (said.every((field) => isDate(table.cell(row, field))) && !meant) return as("left-out");
  if (above.sums && figures.length === 0 && !meant) return as("left-out");
  if (below && /^(?:ν|nu|v)_?\{?eff\}?(?:\s*=.*)?$/i.test(label)) return as("left-out");
  const nameless = !has("quantity") && !has("symbol") && !meant && !has("estimate");
  if (below && nameless && figures.length > 0) return as("total");
  const word = sumWordIn(label);
  const bare = !(["howStated", "distribution", "sensitivity"] as const).some(has);
  // The distribution of the result may be named too; what is multiplied by a coefficient is an input.
  const asSum = bare || (!has("sensitivity") && !has("stated") && !has("estimate"));
  const startsWithSymbol = /^(?:u_?c\b|u ?\( ?y ?\)|u_?\{?y\}?$)/.test(label);
  const startsWithExpanded = /^U(?:\s*=.*|_?\{?95\}?|\s*\(.*\))?$/.test(label);
  if (below && asSum && (word !== null || startsWithSymbol || startsWithExpanded || /^[yk](\s*=.*)?$/i.test(label))) {
    if (word === "expanded" || startsWithExpanded) return as("expanded");
    if (word === "coverageFactor" || word === "degreesOfFreedom" || /^k(\s*=.*)?$/i.test(label)) return as("left-out");
    return as(word === "result" || /^y/i.test(label) ? "result" : "total");
  }
  // EA-4/02, 4.1: the last row has the result's estimate and u(y), with nothing between.
  const nothingBetween = !(["stated", "standard", "lower", "distribution", "sensitivity"] as const).some(has);
  if (below && nothingBetween && has("contribution")) return as(has("estimate") ? "result" : "total");
  const lacks = usual.length >= 2 && usual.every((field) => !has(field)) && !has("estimate");
  return as("input", below && lacks);
}

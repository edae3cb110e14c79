import { InputError, type Problem } from "../../../engine/index.ts";
import type { TableRow } from "../table/table.ts";
import { applyMapping, type AppliedMapping } from "./apply.ts";
import type { BudgetField, Stated } from "./fields.ts";
import type { BudgetMapping, MappingQuestion, StatedMapping } from "./mapping.ts";
import { proposeMapping, type MappingProposal } from "./propose.ts";
import type { BudgetSheet } from "./sheet.ts";
import type { BudgetTableOptions } from "./study.ts";

/** A column and what it was taken for. */
export interface ColumnMapping {
  /** Letter as a spreadsheet shows it. */
  readonly column: string;
  readonly heading: string;
  readonly unit: string | null;
  /** `null`: not used. */
  readonly field: BudgetField | null;
  /** How figures of this column were stated, if the column tells. */
  readonly implies: Stated | null;
}

/** A budget table as far as it is understood. */
export interface BudgetTableReading extends AppliedMapping {
  /** What every column was taken for: to be shown before anything runs. */
  readonly columns: readonly ColumnMapping[];
  /** First row of the headings; `null` without any. */
  readonly headingRow: number | null;
  readonly mapping: BudgetMapping;
  /** The title above the table; `null` for none. */
  readonly title: string | null;
  /** The same for tables with the same headings. */
  readonly shape: string;
}

/** Reads a table as far as it can be: what is left open is asked, and what cannot be used is named with its cell. */
export function readMapped(
  sheets: readonly BudgetSheet[],
  stated: StatedMapping,
  { title, ...options }: Omit<BudgetTableOptions, "title"> & { readonly title?: string; readonly otherwise: string },
): BudgetTableReading {
  const proposal = proposeMapping(sheets, stated);
  const { mapping, sheet } = proposal;
  const applied = applyMapping(sheet.rows, mapping, {
    ...options,
    title: title ?? proposal.title ?? options.otherwise,
  });
  const questions = [...proposal.questions, ...applied.questions];
  return {
    ...applied,
    // Cells read in a way that is still asked about have no mistakes yet.
    complaints: proposal.questions.some(({ id }) => !id.startsWith("row ")) ? [] : applied.complaints,
    questions,
    study: questions.length === 0 ? applied.study : null,
    columns: columnsOf(proposal),
    headingRow: mapping.headings[0] ?? null,
    mapping,
    title: proposal.title,
    shape: proposal.shape,
  };
}

const columnsOf = ({ mapping, columns }: MappingProposal): readonly ColumnMapping[] =>
  columns.map(({ column, heading }) => {
    const { field, unit, stated } = mapping.columns[column]!;
    return { column, heading, field, unit: unit ?? null, implies: stated ?? null };
  });

/** What a question and its answers are, as a problem of the place they are about. */
const problemOf = ({ question, because, rows, columns, answers }: MappingQuestion): Problem => ({
  place:
    [...rows.slice(0, 1).map((row) => `row ${row}`), ...columns.slice(0, 2).map((column) => `column ${column}`)].join(
      ", ",
    ) || "the table",
  value: `an open question: ${because.replace(/\.$/, "")}`,
  accepted: `an answer to: ${question} ${answers.map(({ answer }) => answer).join("; ")}`,
});

/** A reading that a study came of. */
export type CompleteReading = BudgetTableReading & { readonly study: NonNullable<BudgetTableReading["study"]> };

/**
 * Turns a budget that exists as a table into a study of the model `additive`, with nothing retyped and nothing guessed.
 *
 * @param rows all rows of the sheet, headings and titles among them
 * @throws {InputError} every cell that cannot be used, with row and column, and every question that is left open
 */
export function readBudgetTable(
  rows: readonly TableRow[],
  options: BudgetTableOptions & { readonly mapping?: StatedMapping },
): CompleteReading {
  return complete(readMapped([{ name: null, rows }], options.mapping ?? {}, { ...options, otherwise: options.title }));
}

/** @throws {InputError} what keeps the reading from being a study */
export function complete(reading: BudgetTableReading): CompleteReading {
  const { study } = reading;
  if (study !== null) return { ...reading, study };
  throw new InputError(problemsOf(reading));
}

/** What keeps a reading from being a study: cells that cannot be used, and what is left open. */
export const problemsOf = ({ complaints, questions }: BudgetTableReading): readonly Problem[] => [
  ...complaints.map(({ place, value, accepted }) => ({ place, value, accepted })),
  ...questions.map(problemOf),
];

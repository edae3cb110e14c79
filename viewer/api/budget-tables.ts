import { z } from "zod";
import type { Immutable, Statement, StudyDocument } from "../../engine/index.ts";
import type { BudgetField, BudgetTableReading } from "../../models/index.ts";
import { statementShown, studyShown } from "./study-document.ts";

/** What a column may be taken for. */
export const BUDGET_FIELDS = [
  "quantity",
  "symbol",
  "estimate",
  "unit",
  "stated",
  "standard",
  "howStated",
  "distribution",
  "divisor",
  "sensitivity",
  "degreesOfFreedom",
  "contribution",
  "source",
] as const satisfies readonly BudgetField[];

/** The query of `POST /api/budget-tables` */
export const budgetTableQuery = z.object({
  name: z.string().describe("The file's name, which ends in .csv or .xlsx"),
  title: z.string().optional().describe("Title of the study; without it, made from the file's name"),
  sheet: z.string().optional().describe("Sheet of an XLSX file that has several"),
  columns: z
    .string()
    .optional()
    .describe(
      `Columns whose headings say nothing, and what they hold, such as C:divisor,D:source: ${BUDGET_FIELDS.join(", ")}`,
    ),
});

const columnMapping = z.strictObject({
  column: z.string().describe("Letter as a spreadsheet shows it"),
  index: z.int(),
  heading: z.string(),
  unit: z.string().nullable().describe("Unit in the heading, if any"),
  field: z.enum(BUDGET_FIELDS).nullable().describe("What it was taken for; null: not used"),
  implies: z
    .enum(["standard", "expanded", "half-width"])
    .nullable()
    .describe("How figures of this column were stated, if the heading itself says so"),
});

const budgetTerm = z.strictObject({
  row: z.int(),
  input: z.string(),
  quantity: z.string(),
  statement: statementShown<Statement>(),
  sensitivity: z.number().describe("Sensitivity coefficient in units of the measurand per unit of the term"),
  unit: z.string(),
  standardUncertainty: z.number(),
  assumed: z.array(z.string()).describe("Assumptions made, in words"),
});

/** `POST /api/budget-tables`: a budget table as it was understood, and the study it makes. */
export const tableReading = z
  .strictObject({
    mapping: z.array(columnMapping).describe("What every column was taken for: to be shown before anything runs"),
    headingRow: z.int().describe("Row of the headings"),
    terms: z.array(budgetTerm),
    summary: z
      .array(
        z.strictObject({
          row: z.int(),
          label: z.string(),
          figures: z.array(z.strictObject({ value: z.number(), unit: z.string().nullable() })),
        }),
      )
      .describe("Rows below the terms that sum up: no inputs"),
    combined: z.number().describe("√Σ(c·u)² of the terms, in the unit of the measurand"),
    remarks: z.array(z.string()),
    study: studyShown<StudyDocument>(),
  })
  .meta({ id: "BudgetTableReading" }) satisfies z.ZodType<BudgetTableReading>;
export type TableReading = Immutable<z.output<typeof tableReading>>;

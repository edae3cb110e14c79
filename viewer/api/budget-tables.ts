import { z } from "zod";
import type { Statement, StudyDocument } from "../../engine/index.ts";
import type { Immutable } from "../../engine/internal.ts";
import type { BudgetField, BudgetTableReading, StatedMapping } from "../../models/index.ts";
import { fileName } from "./file-name.ts";
import { numeral } from "./numeral.ts";
import { statementShown, studyShown } from "./study-document.ts";

export type { StatedMapping };

/** What a column may be taken for. */
export const BUDGET_FIELDS = [
  "quantity",
  "symbol",
  "estimate",
  "unit",
  "stated",
  "standard",
  "lower",
  "upper",
  "howStated",
  "distribution",
  "type",
  "divisor",
  "sensitivity",
  "degreesOfFreedom",
  "readings",
  "contribution",
  "share",
  "source",
] as const satisfies readonly BudgetField[];

/** Bytes of a mapping at most, which names each row at most once. */
const MOST_MAPPING_BYTES = 1_000_000;
const MAPPING = `the number of bytes of the mapping, at most ${MOST_MAPPING_BYTES}`;

const WORDS = "a text of at most 500 characters";
const words = (what: string) => z.string(WORDS).trim().max(500, WORDS).optional().describe(what);

/** The query of `POST /api/budget-tables` */
export const budgetTableQuery = z.object({
  name: fileName.describe("The file's name"),
  title: words("Title of the study; without it, the title above the table or the file's name"),
  symbol: words("Symbol of the result"),
  meaning: words("What the result is, in words"),
  unit: words("Unit of the result; without it, that of the inputs"),
  mapping: numeral(z.int(MAPPING).min(0, MAPPING).max(MOST_MAPPING_BYTES, MAPPING))
    .optional()
    .describe("Bytes at the body's beginning that state what columns, rows and signs are, as JSON; the file follows"),
});

const field = z.enum(BUDGET_FIELDS).nullable().describe("What it was taken for; null: not used");
const stated = z.enum(["standard", "expanded", "half-width", "full-width", "deviation"]);
const shape = z.enum(["normal", "rectangular", "triangular", "arcsine", "t"]);

const tableColumn = z.strictObject({
  column: z.string().describe("Letter as a spreadsheet shows it"),
  heading: z.string(),
  unit: z.string().nullable().describe("Unit of its figures, if heading or mapping state one"),
  field,
  implies: stated.nullable().describe("How figures of this column were stated, if the column tells"),
});

const columnMeaning = z.strictObject({
  field,
  unit: z.string().nullable().exactOptional(),
  stated: stated.nullable().exactOptional(),
  factor: z.number().nullable().exactOptional().describe("Coverage factor of its expanded uncertainties"),
});
const rowMeaning = z.strictObject({
  is: z.enum(["input", "total", "result", "expanded", "left-out"]),
  stated: stated.exactOptional(),
  factor: z.number().exactOptional(),
  distribution: shape.exactOptional(),
  temperature: z.boolean().exactOptional().describe("True for a temperature, false for a difference of temperatures"),
  sensitivityUnit: z.string().exactOptional(),
  exact: z.boolean().exactOptional().describe("A quantity taken as exact"),
});

const budgetMapping = z
  .strictObject({
    sheet: z.string().nullable(),
    turned: z.literal(true).exactOptional().describe("Inputs stand in columns: the sheet is read turned"),
    headings: z.array(z.int()).describe("Rows that head the columns"),
    units: z.int().nullable().describe("Row of units below them"),
    columns: z.record(z.string(), columnMeaning).describe("By column letter"),
    rows: z.record(z.string(), rowMeaning).describe("By row number"),
    decimal: z.enum([".", ","]),
    unit: z.string().describe("Unit of figures that have none"),
    divisors: z.enum(["divide", "multiply"]),
    cells: z.record(z.string(), z.string()).describe("Cells read otherwise than written"),
  })
  .meta({ id: "BudgetMapping" });
export type BudgetMapping = Immutable<z.output<typeof budgetMapping>>;
export type ColumnMeaning = BudgetMapping["columns"][string];
export type RowMeaning = BudgetMapping["rows"][string];

const question = z.strictObject({
  id: z.string(),
  question: z.string(),
  because: z.string(),
  rows: z.array(z.int()),
  columns: z.array(z.string()),
  answers: z.array(
    z.strictObject({
      answer: z.string(),
      states: (z.unknown() as unknown as z.ZodType<StatedMapping>).describe("What the answer states of the mapping"),
    }),
  ),
});
export type MappingQuestion = Immutable<z.output<typeof question>>;

const budgetTerm = z.strictObject({
  row: z.int(),
  input: z.string(),
  symbol: z.string().nullable().describe("As the table states it"),
  quantity: z.string(),
  estimate: z.number(),
  statement: statementShown<Statement>(),
  sensitivity: z.number().describe("Sensitivity coefficient in units of the measurand per unit of the term"),
  unit: z.string(),
  temperature: z.boolean().nullable().describe("Whether a temperature or a difference; null for what is not in °C"),
  standardUncertainty: z.number(),
  assumed: z.array(z.string()).describe("Assumptions made, in words"),
});

const printedFigure = z.strictObject({ value: z.number(), unit: z.string().nullable() });

const budgetReading = z.strictObject({
  columns: z.array(tableColumn).describe("What every column was taken for: to be shown before anything runs"),
  headingRow: z.int().nullable().describe("First row of the headings; null without any"),
  mapping: budgetMapping,
  title: z.string().nullable().describe("Title above the table"),
  shape: z.string().describe("The same for tables with the same headings"),
  terms: z.array(budgetTerm),
  summary: z
    .array(
      z.strictObject({
        row: z.int(),
        is: z.enum(["total", "result", "expanded"]),
        label: z.string(),
        figures: z.array(printedFigure),
        estimate: printedFigure.nullable(),
        factor: z.number().nullable(),
      }),
    )
    .describe("Rows that sum up: compared with what the inputs give, and no inputs"),
  unit: z.string().describe("Unit of the result; empty for none"),
  estimate: z.number().describe("Σ c·x, in the unit of the result"),
  combined: z.number().describe("√Σ(c·u)² of the terms, in the unit of the result"),
  remarks: z.array(z.string()),
  complaints: z.array(
    z.strictObject({
      place: z.string(),
      value: z.string(),
      accepted: z.string(),
      row: z.int(),
      column: z.string().nullable(),
    }),
  ),
  questions: z.array(question).describe("What the table leaves open: nothing is guessed"),
  study: studyShown<StudyDocument>().nullable().describe("null while anything is left open or cannot be used"),
}) satisfies z.ZodType<BudgetTableReading>;

/** `POST /api/budget-tables`: a budget table as far as it was understood, the study it makes, and the sheet it stands in. */
export const tableReading = budgetReading
  .extend({
    file: z.strictObject({ name: z.string(), sha256: z.string() }),
    sheets: z.array(z.string()).describe("Names of the sheets of a workbook; none for a text"),
    rows: z
      .array(z.strictObject({ row: z.int(), cells: z.array(z.string()).describe("Texts, shortened") }))
      .describe("The first rows of the sheet"),
    more: z.int().describe("Rows that are not among them"),
  })
  .meta({ id: "BudgetTableReading" });
export type TableReading = Immutable<z.output<typeof tableReading>>;
export type DrawnRow = TableReading["rows"][number];

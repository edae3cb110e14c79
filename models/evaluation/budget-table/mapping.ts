import * as z from "zod";
import type { DecimalMark } from "../text/decimal.ts";
import {
  BUDGET_FIELDS,
  ROW_KINDS,
  SHAPES,
  STATED,
  type BudgetField,
  type RowKind,
  type Shape,
  type Stated,
} from "./fields.ts";

/** What a column is. */
export interface ColumnMeaning {
  /** `null`: not used. */
  readonly field: BudgetField | null;
  /** Unit of its figures, if neither the cell nor the row has one. */
  readonly unit?: string | null;
  /** How its figures state an uncertainty; `null` if each row tells. */
  readonly stated?: Stated | null;
  /** Coverage factor of its expanded uncertainties; `null` if each row tells. */
  readonly factor?: number | null;
}

/** What a row is, and what the reader states of it where the row itself leaves it open. */
export interface RowMeaning {
  readonly is: RowKind;
  readonly stated?: Stated;
  readonly factor?: number;
  readonly distribution?: Shape;
  /** True for a temperature, false for a difference of temperatures: both are written in °C. */
  readonly temperature?: boolean;
  /** Unit of the row's sensitivity coefficient. */
  readonly sensitivityUnit?: string;
  /** A quantity taken as exact: the row has no uncertainty. */
  readonly exact?: boolean;
}

/** How the sheet of one budget is laid out: plain data, which a file can hold and a person can mend. */
export interface BudgetMapping {
  /** Sheet of a workbook; `null` for a file that is one table. */
  readonly sheet: string | null;
  /** Inputs stand in columns: rows and columns are counted after the sheet was turned. */
  readonly turned?: true;
  /** Rows that head the columns, one below the other; none if the table has no headings. */
  readonly headings: readonly number[];
  /** The row in which the units of the columns stand; `null` for none. */
  readonly units: number | null;
  readonly columns: Readonly<Record<string, ColumnMeaning>>;
  /** By row number. A row that is not named is left out. */
  readonly rows: Readonly<Record<string, RowMeaning>>;
  readonly decimal: DecimalMark;
  /** Unit of figures that have none in their cell, row or column; empty if there is none. */
  readonly unit: string;
  /** Whether factors divide (2, √3), or multiply (0.5, 1/√3). */
  readonly divisors: "divide" | "multiply";
  /** Cells read otherwise than they are written, by address such as C5. */
  readonly cells: Readonly<Record<string, string>>;
}

/** A mapping as far as a person has stated it. What is left open is proposed. */
export interface StatedMapping {
  readonly sheet?: string | null;
  readonly turned?: boolean;
  readonly headings?: readonly number[];
  readonly units?: number | null;
  readonly columns?: Readonly<Record<string, Partial<ColumnMeaning>>>;
  readonly rows?: Readonly<Record<string, Partial<RowMeaning>>>;
  readonly decimal?: DecimalMark;
  readonly unit?: string;
  readonly divisors?: BudgetMapping["divisors"];
  readonly cells?: Readonly<Record<string, string>>;
}

/** Something that a table leaves open: asked for, never guessed. */
export interface MappingQuestion {
  /** The same for the same question about the same table. */
  readonly id: string;
  readonly question: string;
  /** What speaks for or against the answers. */
  readonly because: string;
  readonly rows: readonly number[];
  readonly columns: readonly string[];
  readonly answers: readonly MappingAnswer[];
}

export interface MappingAnswer {
  readonly answer: string;
  /** What the answer states: joined with what was stated before. */
  readonly states: StatedMapping;
}

const MOST_ROWS = 100_000;
const column = z.string().regex(/^[A-Z]{1,3}$/, "a column letter such as C");
const row = z.number().int().min(1).max(10_000_000);
const rowKey = z.string().regex(/^[1-9]\d{0,7}$/, "a row number such as 5");
const factor = z.number().gt(0).max(100);
const unit = z.string().max(60);
const bounded = <T extends z.ZodType<Record<string, unknown>>>(record: T): T =>
  record.refine((entries) => Object.keys(entries).length <= MOST_ROWS, `at most ${MOST_ROWS} entries`);

/** The schema of a mapping in a file or a request. */
export const statedMappingSchema = z.strictObject({
  sheet: z.string().max(200).nullable().exactOptional(),
  turned: z.boolean().exactOptional(),
  headings: z.array(row).max(5).exactOptional(),
  units: row.nullable().exactOptional(),
  columns: bounded(
    z.record(
      column,
      z.strictObject({
        field: z.enum(BUDGET_FIELDS).nullable().exactOptional(),
        unit: unit.nullable().exactOptional(),
        stated: z.enum(STATED).nullable().exactOptional(),
        factor: factor.nullable().exactOptional(),
      }),
    ),
  ).exactOptional(),
  rows: bounded(
    z.record(
      rowKey,
      z.strictObject({
        is: z.enum(ROW_KINDS).exactOptional(),
        stated: z.enum(STATED).exactOptional(),
        factor: factor.exactOptional(),
        distribution: z.enum(SHAPES).exactOptional(),
        temperature: z.boolean().exactOptional(),
        sensitivityUnit: unit.exactOptional(),
        exact: z.boolean().exactOptional(),
      }),
    ),
  ).exactOptional(),
  decimal: z.enum([".", ","]).exactOptional(),
  unit: unit.exactOptional(),
  divisors: z.enum(["divide", "multiply"]).exactOptional(),
  cells: bounded(
    z.record(z.string().regex(/^[A-Z]{1,3}[1-9]\d{0,7}$/, "a cell such as C5"), z.string().max(200)),
  ).exactOptional(),
});

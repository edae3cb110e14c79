import { labelText } from "../pictures/label.ts";
import type { Label, Scene } from "../pictures/scene.ts";

/** A cell: a text, or one with what stands smaller beside it. */
export type Cell =
  | string
  | {
      readonly text: string;
      /** Its error or interval. */
      readonly note?: string;
      /** The same for an eye, where a medium draws. */
      readonly picture?: Scene;
      /** The figure itself, for a copy in a spreadsheet; a text for figures that stand in one cell, such as an interval. */
      readonly value?: number | string;
    };

/** A column: its head, how its cells stand, and which method it belongs to. */
export interface Column {
  readonly head: Label;
  readonly kind: "head" | "number" | "text";
  readonly method?: "linear" | "monte-carlo";
  /** A terminal, which is narrow, leaves it out. */
  readonly fine?: true;
}

export interface Row {
  readonly head: Label;
  /** The figure itself, for a copy in a spreadsheet, where the head is a number. */
  readonly value?: number;
  /** A line below the head. */
  readonly note?: Label;
  readonly cells: readonly Cell[];
  /** A terminal leaves it out. */
  readonly fine?: true;
  /** Part of the row above it that has none: shown below its sum, set in. */
  readonly part?: true;
  /** Set off from the others: the one that the study asks for. */
  readonly asked?: true;
}

/** A table as every medium shows it: what it says is decided here, how it looks in each medium. */
export interface Table {
  readonly caption: Label;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Rows set apart below the others, under a head of their own if they have one. */
  readonly below?: { readonly head: Label; readonly rows: readonly Row[] };
  /** Sums and what is left over. */
  readonly total?: readonly Row[];
}

/** A figure as it is printed, with the figure itself; a text alone where there is none. */
export const figureCell = (text: string, value: number | null | undefined): Cell =>
  value === null || value === undefined ? text : { text, value };

/** An interval as it is printed, with its endpoints at full precision. */
export const intervalCell = (text: string, [low, high]: readonly [number, number]): Cell => ({
  text,
  value: `[${low}, ${high}]`,
});

/** Heads and rows for a file: figures at full precision, texts as they are printed. */
export const fileRows = ({ columns, rows }: Pick<Table, "columns" | "rows">): string[][] => [
  columns.map(({ head }) => labelText(head)),
  ...rows.map(({ head, value, cells }) => [
    value === undefined ? labelText(head) : String(value),
    ...cells.map((cell) => (typeof cell === "string" ? cell : String(cell.value ?? cell.text))),
  ]),
];

export const textOfCell = (cell: Cell): string => (typeof cell === "string" ? cell : cell.text);

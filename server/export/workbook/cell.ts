/** A cell of a sheet: a text, a number, or a formula with the value it has when the sheet is written. */
export type Cell =
  | null
  | { readonly text: string; readonly style?: Style }
  | { readonly number: number; readonly style?: Style }
  | { readonly formula: string; readonly value: number | string; readonly style?: Style };

export type Style = "title" | "head" | "caution" | "wrapped";

export interface Sheet {
  readonly name: string;
  /** Widths of the columns in characters. */
  readonly widths: readonly number[];
  readonly rows: readonly (readonly Cell[])[];
}

export const text = (words: string, style?: Style): Cell => ({
  text: words,
  ...(style === undefined ? {} : { style }),
});

/** A figure, or a text in its place: no cell holds anything but a finite number. */
export const figure = (value: number | null, instead = ""): Cell =>
  value === null || !Number.isFinite(value) ? text(instead) : { number: value };

/** The letters of a column: 0 is A, 26 is AA. */
export const columnName = (index: number): string =>
  (index < 26 ? "" : columnName(Math.floor(index / 26) - 1)) + String.fromCodePoint(65 + (index % 26));

/** The place of a cell, both counted from 0: B3, or $B$3 where a copy of the formula must keep it. */
export const place = (column: number, row: number, fixed = false): string =>
  fixed ? `$${columnName(column)}$${row + 1}` : `${columnName(column)}${row + 1}`;

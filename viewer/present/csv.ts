/** The number that a cell states, with a plain minus and without its spaces; `null` for another text. */
function numberIn(text: string, decimalSign: string): string | null {
  const number = plainWords(text)
    .replace(decimalSign, ".")
    .replace("\u2212", "-")
    .replace(/(?<=\d) (?=\d{3}(?!\d))/g, "");
  return /^[-+]?\d+(\.\d+)?(e[-+]?\d+)?$/i.test(number) ? number : null;
}

const plainWords = (text: string): string => text.replace(/\s+/g, " ").trim();

/** A cell of a table as a spreadsheet takes it: a number, else the text. */
const cellText = (text: string, decimalSign: string): string =>
  numberIn(text, decimalSign) ?? guarded(plainWords(text));

/**
 * The cells of rows as a spreadsheet's own: numbers, and texts that may still look like formulas.
 *
 * @param decimalSign of the printed numbers
 */
export const cellValues = (rows: readonly (readonly string[])[], decimalSign = "."): (string | number)[][] =>
  rows.map((row) =>
    row.map((text) => {
      const number = numberIn(text, decimalSign);
      return number === null ? plainWords(text) : Number(number);
    }),
  );

/** What a spreadsheet would take for a formula and carry out: a text that begins so gets an apostrophe before it. */
const FORMULA = /^[=+@\-＝＋＠－]/;

/** A text that no spreadsheet takes for a formula, now or when it is saved as CSV. */
export const guarded = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

const quoted = (cell: string): string => (/[",\n\r]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/**
 * Rows of cells as CSV (RFC 4180); a number keeps the places it is printed with, and has a point in any language.
 *
 * @param decimalSign of the printed numbers
 */
export const csvText = (rows: readonly (readonly string[])[], decimalSign = "."): string =>
  rows.map((row) => row.map((cell) => quoted(cellText(cell, decimalSign))).join(",")).join("\r\n") + "\r\n";

/** The cells of a table on the page; a cell over several columns leaves the others empty, rows put away are left out. */
export const cellsOf = (table: HTMLTableElement): string[][] =>
  [...table.rows]
    .filter((row) => row.dataset.aside === undefined)
    .map((row) =>
      [...row.cells].flatMap((cell) => [
        cell.dataset.value ?? textIn(cell),
        ...Array.from({ length: cell.colSpan - 1 }, () => ""),
      ]),
    );

/** The text of a cell with spaces between its parts; pictures and arrows say nothing here. */
function textIn(cell: Element): string {
  const copy = cell.cloneNode(true) as Element;
  for (const left of copy.querySelectorAll("svg, .arrow, .unseen, button.opens")) left.remove();
  for (const part of copy.querySelectorAll(".meaning, .source, .after, .value, sub, .asked-mark")) part.prepend(" ");
  return copy.textContent ?? "";
}

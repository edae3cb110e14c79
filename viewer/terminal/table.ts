import stringWidth from "string-width";
import wrapAnsi from "wrap-ansi";

/** A column: its heading and how its cells line up. */
export interface Column {
  readonly heading: string;
  readonly align: "left" | "right" | "point";
}

/** Columns that a text takes on a terminal: combining marks take none, wide characters two. */
export const displayWidth = (text: string): number => stringWidth(text);

/**
 * Rows as lines of text. Numbers in a `point` column line up on their decimal sign. Cells hold no escape
 * codes, whose characters take no column.
 */
export function tableLines(columns: readonly Column[], rows: readonly (readonly string[])[]): string[] {
  const cells = rows.map((row) => [...row]);
  columns.forEach(({ align }, j) => {
    if (align !== "point") return;
    const tail = (text: string): number => (text.includes(".") ? displayWidth(text) - text.indexOf(".") : 0);
    const longest = Math.max(0, ...cells.map((row) => tail(row[j]!)));
    for (const row of cells) row[j] = row[j]! + " ".repeat(longest - tail(row[j]!));
  });
  const widths = columns.map(({ heading }, j) =>
    Math.max(displayWidth(heading), ...cells.map((row) => displayWidth(row[j]!))),
  );
  const line = (row: readonly string[]): string =>
    row
      .map((cell, j) => {
        const space = " ".repeat(Math.max(0, widths[j]! - displayWidth(cell)));
        return columns[j]!.align === "left" ? cell + space : space + cell;
      })
      .join("  ")
      .trimEnd();
  return [line(columns.map(({ heading }) => heading)), ...cells.map(line)];
}

/** Breaks a text between words into lines of at most `width` columns, each after the first indented. */
export function wrap(text: string, width: number, indent = ""): string {
  const words = text.trim().replace(/\s+/g, " ");
  const [first, ...rest] = wrapAnsi(words, width).split("\n");
  if (rest.length === 0 || indent === "") return [first!, ...rest].join("\n");
  const others = wrapAnsi(words.slice(first!.length).trimStart(), width - indent.length).split("\n");
  return [first!, ...others.map((line) => indent + line)].join("\n");
}

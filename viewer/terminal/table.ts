import stringWidth from "string-width";
import wrapAnsi from "wrap-ansi";

/** A column: its heading and how its cells line up. */
export interface Column {
  readonly heading: string;
  readonly align: "left" | "right" | "point";
}

/**
 * Characters of one column each, which stand alone: ASCII, Latin, Greek, spaces, dashes, quotation marks, superscripts and
 * subscripts, mathematical signs. Nearly every text has no others, and string-width takes a fifth of a summary's time.
 */
const PLAIN =
  /^[\x20-\x7e\xa0-\xac\xae-\u02ff\u0391-\u03a1\u03a3-\u03c9\u2000-\u200a\u2010-\u2027\u202f-\u2038\u2070\u2074-\u208e\u2190-\u2193\u2200-\u22ff]*$/;

/** Columns that a text takes on a terminal: combining marks take none, wide characters two. */
export const displayWidth = (text: string): number => (PLAIN.test(text) ? text.length : stringWidth(text));

/** Spaces between two columns, and those of a table that is too wide with them. */
const BETWEEN = "  ";
const CLOSE = " ";

/**
 * Rows as lines of text. Numbers in a `point` column line up on their decimal sign. If the table is wider than `width`,
 * headings and cells of left columns are broken between words, the widest first; if that is not enough, columns stand
 * closer, unless `closer` is false. Cells hold no escape codes, whose characters take no column.
 */
export function tableLines(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  width = Infinity,
  closer = true,
): string[] {
  const cells = rows.map((row) => [...row]);
  columns.forEach(({ align }, j) => {
    if (align !== "point") return;
    const texts = cells.map((row) => row[j]!);
    const longest = Math.max(0, ...texts.map(tailOf));
    for (const row of cells) if (isNumber(row[j]!)) row[j] = row[j]! + " ".repeat(longest - tailOf(row[j]!));
  });
  const wide = widthsOf(columns, cells, width, BETWEEN);
  const between = !closer || widthOver(wide, BETWEEN) <= width ? BETWEEN : CLOSE;
  const widths = between === BETWEEN ? wide : widthsOf(columns, cells, width, CLOSE);
  const lines = (row: readonly string[], bottom: boolean): string[] => {
    const parts = row.map((cell, j) =>
      displayWidth(cell) <= widths[j]! ? [cell] : wrap(cell, widths[j]!).split("\n"),
    );
    const height = Math.max(...parts.map((part) => part.length));
    return Array.from({ length: height }, (_, i) =>
      parts
        .map((part, j) => {
          const text = part[bottom ? i - height + part.length : i] ?? "";
          const space = " ".repeat(Math.max(0, widths[j]! - displayWidth(text)));
          return columns[j]!.align === "left" ? text + space : space + text;
        })
        .join(between)
        .trimEnd(),
    );
  };
  return [
    ...lines(
      columns.map(({ heading }) => heading),
      true,
    ),
    ...cells.flatMap((row) => lines(row, false)),
  ];
}

const isNumber = (text: string): boolean => /^[−+<>\s\u00a0]*\d/.test(text);

/** Characters from the decimal sign on. */
const tailOf = (text: string): number => {
  if (!isNumber(text)) return 0;
  const figure = /^[−+<>\s\u00a0]*[\d\u202f]+(\.\d+)?/.exec(text)![0];
  return displayWidth(text) - (figure.includes(".") ? figure.indexOf(".") : displayWidth(figure));
};

/** Columns that a table of these takes. */
const widthOver = (widths: readonly number[], between: string): number =>
  widths.reduce((sum, one) => sum + one, between.length * (widths.length - 1));

/** Widths of the columns: what they need, less what the widest of those that can be broken give up for `most`. */
function widthsOf(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  most: number,
  between: string,
): number[] {
  const words = (text: string): number => Math.max(0, ...text.split(" ").map(displayWidth));
  const widest = (j: number, of: (text: string) => number): number => Math.max(0, ...rows.map((row) => of(row[j]!)));
  const widths = columns.map(({ heading }, j) => Math.max(displayWidth(heading), widest(j, displayWidth)));
  const least = columns.map(({ heading, align }, j) =>
    Math.max(words(heading), widest(j, align === "left" ? words : displayWidth)),
  );
  while (widthOver(widths, between) > most) {
    const slack = widths.map((one, j) => one - least[j]!);
    const j = slack.indexOf(Math.max(...slack));
    if (slack[j]! <= 0) break;
    widths[j]! -= 1;
  }
  return widths;
}

/** Breaks a text between words into lines of at most `width` columns, each after the first indented. */
export function wrap(text: string, width: number, indent = ""): string {
  // No-break spaces stay: a unit is not parted from its number (SI Brochure, 8th edition, 5.3.3), nor a number's groups.
  const words = text.trim().replace(/[^\S\u00a0\u202f]+/g, " ");
  const linesOf = PLAIN.test(words) ? plainLines : ansiLines;
  const [first, ...rest] = linesOf(words, width);
  if (rest.length === 0 || indent === "") return [first!, ...rest].join("\n");
  const others = linesOf(words.slice(first!.length).trimStart(), width - indent.length);
  return [first!, ...others.map((line) => indent + line)].join("\n");
}

const ansiLines = (words: string, width: number): string[] => wrapAnsi(words, width).split("\n");

/** As `ansiLines`, of plain characters. A word that is wider has a line of its own. */
function plainLines(words: string, width: number): string[] {
  const lines: string[] = [];
  let line: string | null = null;
  for (const word of words.split(" ")) {
    if (line === null) line = word;
    else if (line.length + 1 + word.length <= width) line = `${line} ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line ?? ""];
}

import { InputError } from "../../../engine/index.ts";
import { CsvParser, type CsvRow } from "./csv.ts";

/** Lines that the separator is told from. */
const FIRST_LINES = 60;

type Separator = "\t" | ";" | "," | "|" | "spaces";

/**
 * Rows of a text that is small and held as a whole, such as a budget saved or pasted: its separator is told from many
 * lines, since titles above the table have none. Tables drawn with upright strokes, or set with two spaces and more
 * between their columns, are read too.
 */
export function writtenRows(text: string, name: string): CsvRow[] {
  const stated = /^sep=(.)\r?\n/.exec(text);
  const body = stated === null ? text : text.slice(stated[0].length);
  const separator = stated === null ? separatorOf(body) : stated[1]!;
  if (separator === "|" || separator === "spaces") return drawnRows(body, separator);
  const rows = quotedRows(body, name, separator);
  return stated === null ? rows : rows.map(({ row, cells }) => ({ row: row + 1, cells }));
}

/** A quote that parts nothing, such as an inch sign, belongs to its cell. */
function quotedRows(text: string, name: string, separator: string): CsvRow[] {
  try {
    const parser = new CsvParser(name, separator);
    return [...parser.push(text), ...parser.end()];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return text
      .split(/\r?\n/)
      .flatMap((line, i) => (line.trim() === "" ? [] : [{ row: i + 1, cells: line.split(separator) }]));
  }
}

/** The separator that a good part of the lines have; those that also occur within figures and sentences come last. */
function separatorOf(text: string): Separator {
  const lines = text
    .slice(0, 100_000)
    .split("\n", FIRST_LINES)
    .map((line) => line.replace(/"(?:[^"]|"")*"/g, "").trim())
    .filter((line) => line !== "" && !line.startsWith("#"));
  const often = (test: (line: string) => boolean): boolean =>
    lines.filter(test).length >= Math.max(1, lines.length / 3);
  for (const separator of ["\t", ";"] as const) if (often((line) => line.includes(separator))) return separator;
  if (often((line) => line.split("|").length > 3)) return "|";
  // A column of figures with decimal commas has commas too, but gaps between its columns.
  if (often((line) => / {2,}\S/.test(line)) && !often((line) => /,\S*,/.test(line))) return "spaces";
  return ",";
}

function drawnRows(text: string, separator: "|" | "spaces"): CsvRow[] {
  return text.split("\n").flatMap((line, i): CsvRow[] => {
    const bare = line.trim();
    // Rules between the rows of a drawn table.
    if (bare === "" || /^[\s|+:=─━-]+$/.test(bare)) return [];
    const cells =
      separator === "spaces"
        ? bare.split(/ {2,}/)
        : bare
            .replace(/^\||\|$/g, "")
            .split("|")
            .map((cell) => cell.trim());
    return [{ row: i + 1, cells }];
  });
}

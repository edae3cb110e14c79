import { InputError } from "../../../engine/index.ts";
import { CsvParser } from "../table/csv.ts";
import type { TableRow } from "../table/table.ts";

/** Characters the separator is told from. */
const DECIDED_FROM = 20_000;

/** What stands between the cells of a log; `" "` is any run of spaces. */
export type Separator = "\t" | ";" | "," | " ";

/**
 * The separator of a log, from its first lines: the one that cuts the most lines into the same number of cells. An
 * instrument's lines above the heading have their own commas, so that the first line alone does not tell. A comma that is
 * a decimal mark loses against a semicolon or a tab.
 */
export function separatorOf(text: string): Separator {
  const lines = text
    .split(/\r?\n/)
    .slice(0, 400)
    .filter((line) => line.trim() !== "")
    .map((line) => line.replaceAll(/"(?:[^"]|"")*"/g, ""));
  let best: Separator = ",";
  let most = 0;
  for (const separator of ["\t", ";", ",", " "] as const) {
    const counts = new Map<number, number>();
    for (const line of lines) {
      const count = separator === " " ? line.trim().split(/ +/).length - 1 : line.split(separator).length - 1;
      if (count > 0) counts.set(count, (counts.get(count) ?? 0) + 1);
    }
    const alike = Math.max(0, ...counts.values());
    if (alike > most) [best, most] = [separator, alike];
  }
  return best;
}

/**
 * Rows of a log kept as text. The last one is marked where the file ends within it, and what follows an unclosed quote or
 * is filled with NUL (a power cut) is left out, with a note.
 *
 * @param notes what was noticed is added here
 */
export async function* logRows(
  text: AsyncIterable<string>,
  name: string,
  notes: string[],
): AsyncGenerator<readonly TableRow[]> {
  let parser: LineParser | null = null;
  let waiting = "";
  let last = "\n";
  const take = function* (piece: string): Generator<readonly TableRow[]> {
    const whole = piece.includes("\0") ? piece.replaceAll("\0", "") : piece;
    if (whole.length !== piece.length && !notes.includes(NULS)) notes.push(NULS);
    if (whole === "") return;
    last = whole.at(-1)!;
    const rows = parser!.push(whole);
    if (rows.length > 0) yield rows;
  };
  for await (const piece of text) {
    if (parser === null) {
      waiting += piece;
      if (waiting.length < DECIDED_FROM) continue;
      parser = parserFor(waiting, name);
      yield* take(waiting);
    } else yield* take(piece);
  }
  if (parser === null) {
    parser = parserFor(waiting, name);
    yield* take(waiting);
  }
  try {
    const rows: readonly TableRow[] = parser.end();
    if (rows.length > 0) yield last === "\n" ? rows : rows.map((row) => ({ ...row, unfinished: true as const }));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    notes.push("the last line ends within a quote and was left out");
  }
}

const NULS = "characters of value 0, as a power cut leaves them, were left out";

interface LineParser {
  push(text: string): TableRow[];
  end(): TableRow[];
}

function parserFor(text: string, name: string): LineParser {
  const separator = separatorOf(text);
  return separator === " " ? spacedLines() : new CsvParser(name, separator);
}

/** Lines whose cells are apart by spaces: nothing is quoted in such logs. */
function spacedLines(): LineParser {
  let rest = "";
  let row = 1;
  const rows = (text: string): TableRow[] => {
    const lines = (rest + text).split(/\r?\n/);
    rest = lines.pop()!;
    return lines.flatMap((line) => {
      const at = row++;
      return line.trim() === "" ? [] : [{ row: at, cells: line.trim().split(/ +/) }];
    });
  };
  return { push: rows, end: () => (rest.trim() === "" ? [] : rows("\n")) };
}

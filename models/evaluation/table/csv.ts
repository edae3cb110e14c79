import { refuse } from "../../../engine/index.ts";

/** One row of a text table. */
export interface CsvRow {
  /** Line of the file the row starts on, from 1. */
  readonly row: number;
  readonly cells: string[];
}

/** Longest row, in characters: an unclosed quote must not swallow a file. */
const LONGEST_ROW = 1_000_000;

/**
 * A strict parser of comma-, semicolon- or tab-separated text that works piece by piece, in memory bounded by one row.
 *
 * RFC 4180 with both line ends; quotes doubled inside quotes; a quote elsewhere in a cell is refused. Blank lines are
 * passed over, as are lines that start with `#` above the first row. The separator is read off the first row: a tab if
 * there is one, else a semicolon, else a comma.
 */
export class CsvParser {
  readonly #name: string;
  #separator = "";
  #rest = "";
  #line = 1;
  #from = 0;
  /** Quotes seen in the row so far. */
  #quotes = 0;

  /** @param separator if it is known already; otherwise the first row tells it */
  constructor(name: string, separator = "") {
    this.#name = name;
    this.#separator = separator;
  }

  get separator(): string {
    return this.#separator;
  }

  /** Rows completed by this piece. @throws {InputError} */
  push(text: string): CsvRow[] {
    this.#rest += text;
    const rows = this.#rows();
    if (this.#rest.length > LONGEST_ROW) {
      refuse(
        `${this.#name}, row ${this.#line}`,
        `more than ${LONGEST_ROW} characters`,
        "rows that end: is a quote left open?",
      );
    }
    return rows;
  }

  /** The last row, where the file does not end with a line end. @throws {InputError} */
  end(): CsvRow[] {
    if (this.#rest === "") return [];
    this.#rest += "\n";
    const rows = this.#rows();
    if (this.#rest !== "") refuse(`${this.#name}, row ${this.#line}`, "a quote that is not closed", "a closing quote");
    return rows;
  }

  #rows(): CsvRow[] {
    const rows: CsvRow[] = [];
    const text = this.#rest;
    const quotes = text.includes('"');
    let start = 0;
    for (;;) {
      const end = text.indexOf("\n", Math.max(start, this.#from));
      if (end < 0) break;
      // A line end inside quotes belongs to its cell. The row is read when its quotes are even in number, and once
      // before, to find a misplaced one where it stands: never once a line, which would take the square of the length.
      const begun = this.#quotes > 0;
      if (quotes) this.#quotes += count(text, '"', Math.max(start, this.#from), end);
      const open = this.#quotes % 2 === 1;
      const line = begun && open ? "" : text.slice(start, text[end - 1] === "\r" && end > start ? end - 1 : end);
      if (this.#quotes > 0) {
        const cells = begun && open ? null : this.#quoted(line);
        if (cells === null) {
          this.#from = end + 1;
          continue;
        }
        rows.push({ row: this.#line, cells });
        this.#line += count(text, "\n", start, end);
        this.#quotes = 0;
      } else if (this.#separator === "" ? line.trim() !== "" && !line.startsWith("#") : line !== "") {
        if (this.#separator === "") this.#choose(line);
        rows.push({ row: this.#line, cells: line.split(this.#separator) });
      }
      this.#line++;
      start = end + 1;
      this.#from = start;
    }
    this.#rest = text.slice(start);
    this.#from = Math.max(0, this.#from - start);
    return rows;
  }

  #choose(line: string): void {
    if (this.#separator !== "") return;
    const bare = line.replace(/"(?:[^"]|"")*"/g, "");
    this.#separator = bare.includes("\t") ? "\t" : bare.includes(";") ? ";" : ",";
  }

  /** Cells of a line with quotes, or `null` where a quote is still open at its end. */
  #quoted(line: string): string[] | null {
    this.#choose(line);
    const cells: string[] = [];
    let at = 0;
    for (;;) {
      if (line[at] === '"') {
        let cell = "";
        let from = at + 1;
        for (;;) {
          const quote = line.indexOf('"', from);
          if (quote < 0) return null;
          cell += line.slice(from, quote);
          if (line[quote + 1] !== '"') {
            at = quote + 1;
            break;
          }
          cell += '"';
          from = quote + 2;
        }
        cells.push(cell);
        if (at < line.length && line[at] !== this.#separator) this.#misplaced(cells.length, line.slice(at));
      } else {
        const next = line.indexOf(this.#separator, at);
        const cell = line.slice(at, next < 0 ? line.length : next);
        if (cell.includes('"')) this.#misplaced(cells.length + 1, cell);
        cells.push(cell);
        at += cell.length;
      }
      if (at >= line.length) return cells;
      at += this.#separator.length;
      if (at === line.length) return [...cells, ""];
    }
  }

  #misplaced(cell: number, found: string): never {
    return refuse(
      `${this.#name}, row ${this.#line}, cell ${cell}`,
      found,
      "quotes around a whole cell only, doubled inside it",
    );
  }
}

function count(text: string, character: string, from: number, to: number): number {
  let found = 0;
  for (let at = from; at < to; at++) if (text[at] === character) found++;
  return found;
}

/** Rows of a text, in the pieces it comes in. */
export async function* csvRows(text: AsyncIterable<string>, name: string): AsyncGenerator<CsvRow[]> {
  const parser = new CsvParser(name);
  for await (const piece of text) {
    const rows = parser.push(piece);
    if (rows.length > 0) yield rows;
  }
  const last = parser.end();
  if (last.length > 0) yield last;
}

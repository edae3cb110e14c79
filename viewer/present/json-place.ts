/** Where a text stops being JSON, and what JSON expects there. */
export interface JsonBreak {
  /** Index of the first character that cannot belong to it; the length of the text if it ends too early. */
  readonly at: number;
  /** As in a message: "a value", "a comma or ]". */
  readonly expected: string;
}

const HEX = /^[\da-fA-F]{4}$/;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;
const FIELD = "the name of a field in double quotes";

/**
 * Where a text stops being JSON (RFC 8259), or `null` if it is JSON. The messages of engines and browsers do not all
 * tell. Any depth of nesting is read, since nothing here calls itself.
 */
export function jsonBreak(text: string): JsonBreak | null {
  const open: ("]" | "}")[] = [];
  let at = 0;
  const skip = (): void => {
    while (text[at] === " " || text[at] === "\n" || text[at] === "\t" || text[at] === "\r") at++;
  };
  const broken = (expected: string): JsonBreak => ({ at, expected });
  /** A number or a word; letters or digits that follow it at once belong to it, and break it. */
  const take = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text) || /[\w.]/.test(text[pattern.lastIndex] ?? "")) return false;
    at = pattern.lastIndex;
    return true;
  };
  /** Reads a text in quotes; the index stays on what breaks it. */
  const string = (): JsonBreak | null => {
    at++;
    for (;;) {
      const character = text[at];
      if (character === undefined) return broken('the closing "');
      if (character < " ") return broken('an escape such as \\n, or the closing "');
      if (character === '"') {
        at++;
        return null;
      }
      if (character === "\\") {
        const kind = text[at + 1] ?? "";
        if (kind === "u" ? !HEX.test(text.slice(at + 2, at + 6)) : !'"\\/bfnrt'.includes(kind) || kind === "")
          return broken("an escape of JSON");
        at += kind === "u" ? 6 : 2;
      } else at++;
    }
  };
  /** The name of a field and its colon. */
  const field = (): JsonBreak | null => {
    if (text[at] !== '"') return broken(FIELD);
    const fault = string();
    if (fault !== null) return fault;
    skip();
    if (text[at] !== ":") return broken("a colon");
    at++;
    return null;
  };

  for (;;) {
    // A value is due here.
    skip();
    const first = text[at];
    let whole = true;
    if (first === "{" || first === "[") {
      at++;
      skip();
      const close = first === "{" ? "}" : "]";
      if (text[at] === close) at++;
      else {
        open.push(close);
        whole = false;
        if (first === "{") {
          const fault = field();
          if (fault !== null) return fault.expected === FIELD ? broken(`${FIELD}, or }`) : fault;
        }
      }
    } else if (first === '"') {
      const fault = string();
      if (fault !== null) return fault;
    } else if (!take(WORD) && !take(NUMBER)) return broken("a value");
    // After a whole value: the next one of what is open, or its end.
    while (whole) {
      skip();
      const close = open.at(-1);
      if (close === undefined) return at === text.length ? null : broken("the end of the text");
      if (text[at] === close) {
        at++;
        open.pop();
        continue;
      }
      if (text[at] !== ",") return broken(`a comma or ${close}`);
      at++;
      if (close === "}") {
        skip();
        const fault = field();
        if (fault !== null) return fault;
      }
      whole = false;
    }
  }
}

/** Line and column, both from 1, of an index in a text. */
export function placeInText(text: string, at: number): { readonly line: number; readonly column: number } {
  const before = text.slice(0, at).split("\n");
  return { line: before.length, column: before.at(-1)!.length + 1 };
}

import { phraseBook } from "./messages/phrases/book.ts";
import { checks } from "./messages/phrases/checks.ts";
import type { Messages } from "./messages/messages.ts";

/** A text of the check in German; `null` for what has no words. */
export interface CheckWords {
  /** What is checked, what a tolerance rests on, a step: with the numbers of the language. */
  readonly text: (english: string) => string | null;
  /** A source: the numbers of clauses and tables stay as they are printed. */
  readonly source: (english: string) => string | null;
  /** A published or an obtained figure, or a word in its place. */
  readonly figures: (english: string) => string | null;
}

/** Words that every language has: numbers, symbols, functions, names of standards and of examples. */
const isNamed = (text: string): boolean =>
  !/\p{Ll}{3,}/u.test(text.replaceAll(/\b(sin|cos|exp|sfc32)\b|\p{L}_\p{L}+|\b[\da-f]{8,}/gu, "")) ||
  /^[a-z]+(-[a-z0-9]+)+$/.test(text);

/** Parts of a text between separators that stand in no brackets. */
function parted(text: string, separator: string): readonly string[] {
  const parts: string[] = [];
  let [from, depth] = [0, 0];
  for (let at = 0; at < text.length; at++) {
    if (text[at] === "(") depth++;
    else if (text[at] === ")") depth--;
    else if (depth <= 0 && text.startsWith(separator, at)) {
      parts.push(text.slice(from, at));
      from = at + separator.length;
    }
  }
  return [...parts, text.slice(from)];
}

const known = phraseBook(checks, inGerman);

/** The text as a whole, or part by part if each is known. */
function inGerman(text: string): string | null {
  if (Object.hasOwn(checks, text)) return checks[text]!;
  for (const separator of [": ", "; ", ", "]) {
    const parts = parted(text, separator);
    if (parts.length === 1) continue;
    const translated = parts.map(inGerman);
    return translated.includes(null) ? null : translated.join(separator);
  }
  return known(text) ?? (isNamed(text) ? text : null);
}

/** The check of an installation in German. */
export function germanCheckWords({ decimalSign, separator }: Pick<Messages, "decimalSign" | "separator">): CheckWords {
  /** Numbers with one point, and lists of them; clauses such as 9.2.2 have two. */
  const withNumbers = (text: string): string =>
    text
      .replaceAll(/(?<=\d%?), (?=[−\d])/gu, separator)
      .replaceAll(/(?<![\d.])(\d+)\.(\d+)(?![\d.])/g, `$1${decimalSign}$2`);
  const numbered = (text: string): string | null => {
    const words = inGerman(text);
    return words === null ? null : withNumbers(words);
  };
  return { text: numbered, source: inGerman, figures: numbered };
}

// Text that people wrote into a study, a table or a file's name reaches the terminal: it must not steer it.

/**
 * Characters that steer a terminal or turn the reading order round: control characters, line separators and the
 * bidirectional controls (Unicode 15, 23.1 and 23.2).
 */
const STEERING = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

/** What our own lines are laid out with: line ends, tabs, and the colours that picocolors writes. */
// oxlint-disable-next-line no-control-regex
const OURS = /(\n|\t|\u001b\[\d{1,2}m)/;

const visible = (character: string): string =>
  `\\u{${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}}`;

/** One line of someone else's text, with what would steer the terminal made visible: `\u{001B}`. */
export const harmlessText = (text: string): string => text.replace(STEERING, visible);

/** Lines of our own making, which may hold someone else's text: only our colours and line ends are kept. */
export const harmlessLines = (text: string): string =>
  text
    .split(OURS)
    .map((part, i) => (i % 2 === 1 ? part : harmlessText(part)))
    .join("");

/** A document with every text in it harmless, the names of its fields too. */
export function harmless<T>(document: T): T {
  if (typeof document === "string") return harmlessText(document) as T;
  if (typeof document !== "object" || document === null) return document;
  if (Array.isArray(document)) return document.map((item: unknown) => harmless(item)) as T;
  return Object.fromEntries(Object.entries(document).map(([name, item]) => [harmlessText(name), harmless(item)])) as T;
}

// What budgets call their columns, distributions and rows, in the languages they are kept in.
import { SHAPES, STATED, type BudgetField, type Shape, type Stated } from "../fields.ts";
import { de } from "./de.ts";
import { en } from "./en.ts";
import { es } from "./es.ts";
import { fr } from "./fr.ts";
import { it } from "./it.ts";
import type { Language } from "./language.ts";

/** One line a language. */
const LANGUAGES: readonly Language[] = [en, de, fr, es, it];

/** A shorter word is found only if it stands alone: it would turn up inside others. */
const LEAST_WITHIN = 5;

/** Longest heading or cell that says anything: what is sought in it takes longer than its length. */
const LONGEST = 300;

/** Letters and digits in words, without case, accents and marks. */
export const wordsOf = (text: string): string =>
  text
    .slice(0, LONGEST)
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replaceAll("ν", " nu ")
    .replace(/±|\+\s*\/\s*-/g, " plusminus ")
    // Compatibility forms turn subscripts such as ᵢ into plain letters, and part accents from letters.
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[^a-z0-9]+/g, " ")
    .trim();

/** The same without the spaces: "half-width", "half width" and "Halfwidth" are one. */
export const plain = (text: string): string => wordsOf(text).replaceAll(" ", "");

/** What a word stands for; the language that comes first decides where two have the same word. */
function lookup<K extends string>(
  lists: (language: Language) => Readonly<Partial<Record<K, readonly string[]>>>,
): Words<K> {
  const found = new Map<string, K>();
  for (const language of LANGUAGES)
    for (const [meaning, list] of Object.entries(lists(language)) as [K, readonly string[]][])
      for (const word of list) if (!found.has(plain(word))) found.set(plain(word), meaning);
  return indexed([...found].toSorted(([a], [b]) => b.length - a.length));
}

/** Words with what they stand for, the longest first, and found by how they begin. */
interface Words<K> {
  readonly all: readonly (readonly [word: string, meaning: K])[];
  readonly exact: ReadonlyMap<string, K>;
  /** Places in `all` of the words that may stand within others, by their first letters. */
  readonly within: ReadonlyMap<string, readonly number[]>;
}

function indexed<K>(all: Words<K>["all"]): Words<K> {
  const within = new Map<string, number[]>();
  for (const [rank, [word]] of all.entries()) {
    if (word.length < LEAST_WITHIN) continue;
    const start = word.slice(0, LEAST_WITHIN);
    within.set(start, [...(within.get(start) ?? []), rank]);
  }
  return { all, exact: new Map(all), within };
}

const HEADINGS = lookup<BudgetField>(({ headings }) => headings);
const STATED_WORDS = lookup<Stated>(({ stated }) => stated);
const SHAPE_WORDS = lookup<Shape>(({ shapes }) => shapes);

/** The meaning of a text that is one of the words, or of the longest word within it. */
function meaningOf<K>(text: string, { all, exact, within }: Words<K>): K | null {
  const own = plain(text);
  const known = exact.get(own);
  if (known !== undefined) return known;
  let best = Infinity;
  for (let at = 0; at + LEAST_WITHIN <= own.length; at++)
    for (const rank of within.get(own.slice(at, at + LEAST_WITHIN)) ?? [])
      if (rank < best && own.startsWith(all[rank]![0], at)) best = rank;
  return best === Infinity ? null : all[best]![1];
}

/** The field that a heading in words names, or `null`. */
export const fieldIn = (heading: string): BudgetField | null =>
  meaningOf(heading, HEADINGS) ?? abbreviatedField(heading);

/** A word cut short by a point, such as `Sens.` or `Empf.`: the beginning of the words of one field alone. */
function abbreviatedField(heading: string): BudgetField | null {
  const cut = /^\s*(\p{L}{3,})\.\s*$/u.exec(heading);
  if (cut === null) return null;
  const own = plain(cut[1]!);
  const fields = new Set(HEADINGS.all.flatMap(([word, field]) => (word.startsWith(own) ? [field] : [])));
  return fields.size === 1 ? [...fields][0]! : null;
}

/** How a heading or a cell states an uncertainty, or `null`. */
export const statedIn = (text: string): Stated | null => meaningOf(text, STATED_WORDS);

/** Whether figures under this heading multiply in place of dividing, if they are less than 1. */
export const namesMultiplier = (heading: string): boolean =>
  LANGUAGES.some(({ multiplier }) => multiplier.some((word) => plain(heading).startsWith(plain(word))));

/** The distribution that a cell names, or `null`. What stands in brackets is tried after what stands before them. */
export function shapeIn(text: string): Shape | null {
  const short = text.slice(0, LONGEST);
  const bare = short
    .replace(/\([^)]*\)/g, " ")
    .replace(/[,;]?\s*k\s*=\s*[\d.,]+/gi, " ")
    .replace(/^\s*(type\s+)?[AB]\s*[:,;/–-]\s*/i, "");
  const within = [...short.matchAll(/\(([^)]*)\)/g)].map(([, inner]) => inner!);
  for (const candidate of [bare, ...within]) {
    const shape = shapeWord(candidate) ?? shortened(candidate);
    if (shape !== null) return shape;
  }
  return null;
}

/** A distribution's word as a whole, or where a word begins: a log-normal distribution is another one. */
function shapeWord(text: string): Shape | null {
  const words = wordsOf(text).split(" ");
  if (words.some((word) => word.startsWith("log"))) return null;
  const own = words.join("");
  const exact = SHAPE_WORDS.exact.get(own);
  if (exact !== undefined) return exact;
  const tails = words.map((_, i) => words.slice(i).join(""));
  return (
    SHAPE_WORDS.all.find(([word]) => word.length >= LEAST_WITHIN && tails.some((tail) => tail.startsWith(word)))?.[1] ??
    null
  );
}

/** An abbreviation with a point, such as `rechteckf.` or `triang.`: the beginning of one distribution's word. */
function shortened(text: string): Shape | null {
  const own = plain(text);
  if (own.length < 3) return null;
  const found = SHAPES.filter((shape) =>
    SHAPE_WORDS.all.some(([word, meaning]) => meaning === shape && word.startsWith(own)),
  );
  return found.length === 1 ? found[0]! : null;
}

export type SumWord = keyof Language["rows"];

const ROW_WORDS: readonly (readonly [string, SumWord])[] = LANGUAGES.flatMap(({ rows }) =>
  (Object.entries(rows) as [SumWord, readonly string[]][]).flatMap(([kind, list]) =>
    list.map((word) => [wordsOf(word), kind] as const),
  ),
).toSorted(([a], [b]) => b.length - a.length);

/** What a row that sums up begins with, or `null`. */
export function sumWordIn(label: string): SumWord | null {
  const own = wordsOf(label);
  return ROW_WORDS.find(([word]) => own === word || own.startsWith(`${word} `))?.[1] ?? null;
}

const INFINITE = new Set(LANGUAGES.flatMap(({ infinite }) => infinite.map(plain)));

/** Whether a cell says that degrees of freedom are without limit. */
export const saysInfinite = (text: string): boolean =>
  /[∞]/.test(text) || INFINITE.has(plain(text)) || text.trim() === "oo";

/** The ways of stating an uncertainty, for messages. */
export const STATED_ACCEPTED = `${STATED.slice(0, -1).join(", ")} or ${STATED.at(-1)!}`;

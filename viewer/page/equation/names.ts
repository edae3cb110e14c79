/** A name that the field offers: a quantity of the budget, or a function. */
export interface OfferedName {
  /** What is put into the text. */
  readonly text: string;
  /** What it stands for. */
  readonly meaning: string;
}

/** Most names in the list: what fits below the field without covering the next one. */
const MOST = 8;

const LATIN: Readonly<Record<string, string>> = {
  α: "a",
  β: "b",
  γ: "g",
  δ: "d",
  Δ: "d",
  ε: "e",
  λ: "l",
  ν: "n",
  ρ: "r",
  σ: "s",
  τ: "t",
  ϑ: "t",
  θ: "t",
  φ: "f",
  ω: "w",
  Ω: "w",
};

/** Latin letters for Greek ones, so that a name is found on a keyboard that has none. */
const latin = (name: string): string => [...name.toLowerCase()].map((letter) => LATIN[letter] ?? letter).join("");

/** The word that ends at the caret, from its first character. */
export const wordBefore = (text: string, caret: number): string =>
  /(?:\p{L}[\p{L}\p{Nd}_′]*)?$/u.exec(text.slice(0, caret))![0];

/** Quantities that stand in a text already, each once, but not a word that is still being typed at its end. */
export const namesIn = (text: string): readonly string[] => [
  ...new Set([...text.matchAll(/\p{L}[\p{L}\p{Nd}_′]*(?=\s*[^\p{L}\p{Nd}_′(\s])/gu)].map(([name]) => name)),
];

/** Names that begin as the word does, or as it would in Latin letters; one that is written out is offered no more. */
export function namesFor(word: string, names: readonly OfferedName[]): readonly OfferedName[] {
  const typed = latin(word);
  return names
    .filter(({ text }) => latin(text).startsWith(typed) && text !== word && text !== `${word}(`)
    .slice(0, MOST);
}

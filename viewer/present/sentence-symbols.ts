import type { RunRecord } from "../../engine/index.ts";

/** A piece of a sentence: words as they stand, or a symbol of the record. */
export type SentencePiece = { readonly text: string } | { readonly symbol: string };

/** A word with an underscore within it, as symbols with a subscript are written. */
const SUBSCRIPTED = /([\p{L}\p{N}]+_[\p{L}\p{N}]+(?:,[\p{L}\p{N}]+)*′*)/u;

/** A letter that stands alone. */
const ONE_LETTER = /(?<![\p{L}\p{N}_])(\p{L})(?![\p{L}\p{N}_′])/u;

/** Words of prose that are one letter long, in English. */
const ONE_LETTER_WORDS = new Set(["a", "I"]);

/**
 * A sentence with the record's symbols apart from its words. Symbols without a subscript are left among the words, since
 * they may be words, unless a sentence is known to speak of them.
 *
 * @param letters symbols of one letter that stand for quantities in this sentence, such as k and u
 */
export function sentencePieces(
  sentence: string,
  { inputs, measurands, leftOut = [] }: Pick<RunRecord, "inputs" | "measurands" | "leftOut">,
  letters: readonly string[] = [],
): readonly SentencePiece[] {
  const symbols = new Set(
    [...Object.values(inputs), ...Object.values(measurands), ...leftOut].map(({ symbol }) => symbol),
  );
  const alone = new Set(letters.filter((letter) => !ONE_LETTER_WORDS.has(letter)));
  const pieces: SentencePiece[] = [];
  const add = (text: string, isSymbol: boolean): void => {
    const before = pieces.at(-1);
    if (isSymbol) pieces.push({ symbol: text });
    else if (before !== undefined && "text" in before) pieces[pieces.length - 1] = { text: before.text + text };
    else if (text !== "") pieces.push({ text });
  };
  for (const piece of sentence.split(SUBSCRIPTED)) {
    if (piece.includes("_")) add(piece, symbols.has(piece));
    else for (const part of piece.split(ONE_LETTER)) add(part, alone.has(part));
  }
  return pieces;
}

/** Symbols of one letter in the sentences about the linearised model. */
export const lettersOfLinearised = (symbol: string): readonly string[] => [
  "k",
  "u",
  ...([...symbol].length === 1 ? [symbol] : []),
];

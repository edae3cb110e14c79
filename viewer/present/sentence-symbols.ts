import type { RunRecord } from "../../engine/index.ts";

/** A piece of a sentence: words as they stand, or a symbol of the record. */
export type SentencePiece = { readonly text: string } | { readonly symbol: string };

/** A word with an underscore within it, as symbols with a subscript are written. */
const SUBSCRIPTED = /([\p{L}\p{N}]+_[\p{L}\p{N}]+(?:,[\p{L}\p{N}]+)*′*)/u;

/** A figure with what follows it, which is a unit or a word: 5 s, 0.0021 °C. */
const FIGURE = /(\d[\u00a0\u202f ]\S+)/u;

/** A letter that stands alone: no part of a word, of a clause such as G.4.2, or of an 's. */
const ONE_LETTER = /(?<![\p{L}\p{N}_'’])(\p{L})(?![\p{L}\p{N}_′]|\.\d)/u;

/** Words of prose that are one letter long, in English. */
const ONE_LETTER_WORDS = new Set(["a", "I"]);

/** Letters of the standards, in sentences of every kind. */
const LETTERS = ["u", "k", "d", "δ", "ν", "p", "U"] as const;

/**
 * A sentence with its symbols apart from its words: those of the record, and the letters of the standards. A symbol without
 * a subscript counts if it is one letter, which no word but "a" and "I" is.
 */
export function sentencePieces(
  sentence: string,
  { inputs, measurands, leftOut = [] }: Pick<RunRecord, "inputs" | "measurands" | "leftOut">,
): readonly SentencePiece[] {
  const symbols = new Set(
    [...Object.values(inputs), ...Object.values(measurands), ...leftOut].map(({ symbol }) => symbol),
  );
  const alone = new Set([...symbols, ...LETTERS].filter((symbol) => !ONE_LETTER_WORDS.has(symbol)));
  const pieces: SentencePiece[] = [];
  const add = (text: string, isSymbol: boolean): void => {
    const before = pieces.at(-1);
    if (isSymbol) pieces.push({ symbol: text });
    else if (before !== undefined && "text" in before) pieces[pieces.length - 1] = { text: before.text + text };
    else if (text !== "") pieces.push({ text });
  };
  for (const piece of sentence.split(SUBSCRIPTED)) {
    if (piece.includes("_")) add(piece, symbols.has(piece));
    else
      for (const [i, part] of piece.split(FIGURE).entries())
        if (i % 2 === 1) add(part, false);
        else for (const word of part.split(ONE_LETTER)) add(word, alone.has(word));
  }
  return pieces;
}

import type { RunRecord } from "../../engine/index.ts";

/** A piece of a sentence: words as they stand, or a symbol of the record. */
export type SentencePiece = { readonly text: string } | { readonly symbol: string };

/** A word with an underscore within it, as symbols with a subscript are written. */
const SUBSCRIPTED = /([\p{L}\p{N}]+_[\p{L}\p{N}]+(?:,[\p{L}\p{N}]+)*′*)/u;

/** A sentence with the record's symbols apart from its words. Symbols without a subscript are left among the words. */
export function sentencePieces(
  sentence: string,
  { inputs, measurands, leftOut = [] }: Pick<RunRecord, "inputs" | "measurands" | "leftOut">,
): readonly SentencePiece[] {
  const symbols = new Set(
    [...Object.values(inputs), ...Object.values(measurands), ...leftOut].map(({ symbol }) => symbol),
  );
  return sentence
    .split(SUBSCRIPTED)
    .filter((piece) => piece !== "")
    .map((piece) => (piece.includes("_") && symbols.has(piece) ? { symbol: piece } : { text: piece }));
}

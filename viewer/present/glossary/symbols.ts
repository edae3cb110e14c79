import type { EquationPiece } from "../equation.ts";

/** Symbols with a subscript in the texts of the glossary. */
const SYMBOL = /(?<![\p{L}\d])([dνp]_(?:low|high|eff|c))(?![\p{L}\d])/u;

/** A text of the glossary taken apart, so that its symbols can be set as print sets them. */
export const glossaryPieces = (
  text: string,
): readonly Extract<EquationPiece, { text: string } | { symbol: string }>[] =>
  text
    .split(SYMBOL)
    .map((piece, i) => (i % 2 === 1 ? { symbol: piece } : { text: piece }))
    .filter((piece) => "symbol" in piece || piece.text !== "");

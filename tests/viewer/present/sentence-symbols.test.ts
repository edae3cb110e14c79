// Symbols in sentences: set as in tables, and nothing else with them.
import { expect, test } from "vitest";
import { sentencePieces } from "../../../viewer/present/sentence-symbols.ts";

const q = (symbol: string) => ({ symbol, meaning: "", unit: "1" });
const record = {
  inputs: { a: q("R_X"), b: q("s"), c: q("λ"), d: q("G"), e: q("a") },
  measurands: { e: q("e") },
} as never;

test.each([
  ["to 2 significant digits of u(e): d = 0.0021 °C, δ = 0.0050 °C", ["u", "e", "d", "δ"]],
  ["A coverage factor k = 2.07 would make it as wide.", ["k"]],
  ["above all by R_X (ν = 2, rectangular)", ["R_X", "ν"]],
  // A unit, a clause, a genitive, and words of one letter are no symbols.
  ["the bearer's risk after 5 s and 12\u00a0s (JCGM 100, G.4.2): a curve that I drew", []],
  ["the readings of s and λ differ", ["s", "λ"]],
  ["R_Y is nobody's", []],
  ["auf 1 signifikante Stelle von u(e) validiert: höchstens 0,0021 °C", ["u", "e"]],
])("%s", (sentence, symbols) => {
  const pieces = sentencePieces(sentence, record);
  expect(pieces.map((piece) => ("symbol" in piece ? piece.symbol : piece.text)).join("")).toBe(sentence);
  expect(pieces.flatMap((piece) => ("symbol" in piece ? [piece.symbol] : []))).toEqual(symbols);
});

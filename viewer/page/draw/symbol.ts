import { html, svg } from "./node.ts";

/** A quantity's symbol taken apart at its underscore: `δt_rep` is δt with the subscript rep. */
export function symbolParts(symbol: string): { readonly base: string; readonly subscript: string } {
  const at = symbol.indexOf("_");
  return at < 0 ? { base: symbol, subscript: "" } : { base: symbol.slice(0, at), subscript: symbol.slice(at + 1) };
}

/** A symbol for reading aloud or for plain text: "δt rep". */
export const symbolText = (symbol: string): string => symbol.replace("_", " ");

/** A symbol as print sets it: italic, its subscript upright. */
export function symbolNode(symbol: string): HTMLElement {
  const { base, subscript } = symbolParts(symbol);
  return html("var", {}, base, subscript === "" ? null : html("sub", {}, subscript));
}

/** The same inside an SVG text. */
export function symbolSpan(symbol: string, after: string): SVGTSpanElement {
  const { base, subscript } = symbolParts(symbol);
  return svg(
    "tspan",
    {},
    svg("tspan", { class: "quantity" }, base),
    subscript === "" ? null : svg("tspan", { dy: "0.3em", "font-size": "75%" }, subscript),
    after === "" ? null : svg("tspan", { dy: subscript === "" ? 0 : "-0.22em" }, after),
  );
}

/** A piece of an equation: words and signs as they stand, or a symbol. */
export type EquationPiece = { readonly text: string } | { readonly symbol: string };

/** Finds the symbols in an equation; only known ones are set italic, so that units and functions stay upright. */
export function equationPieces(equation: string, symbols: ReadonlySet<string>): EquationPiece[] {
  const pieces: EquationPiece[] = [];
  let rest = 0;
  for (const match of equation.matchAll(/[\p{L}\p{N}]+(?:_[\p{L}\p{N}]+)?/gu)) {
    const known = symbols.has(match[0]) || match[0].includes("_");
    if (!known || /^\p{N}/u.test(match[0])) continue;
    if (match.index > rest) pieces.push({ text: equation.slice(rest, match.index) });
    pieces.push({ symbol: match[0] });
    rest = match.index + match[0].length;
  }
  if (rest < equation.length) pieces.push({ text: equation.slice(rest) });
  return pieces;
}

/** An equation as print sets it. */
export const equationNode = (equation: string, symbols: ReadonlySet<string>): HTMLElement =>
  html(
    "span",
    { class: "equation" },
    equationPieces(equation, symbols).map((piece) => ("symbol" in piece ? symbolNode(piece.symbol) : piece.text)),
  );

import { isAsFiled } from "../language.ts";
import { runsOf } from "../../present/pictures/label.ts";
import type { Label } from "../../present/pictures/scene.ts";
import type { RunRecord } from "../../../engine/index.ts";
import { equationLines, type EquationPiece } from "../../present/equation.ts";
import { sentencePieces } from "../../present/sentence-symbols.ts";
import { symbolParts } from "../../present/symbol.ts";
import { html, svg, type Child } from "./node.ts";

/** A symbol as print sets it: italic, its subscript upright. */
export function symbolNode(symbol: string): HTMLElement {
  const { base, subscript, primes } = symbolParts(symbol);
  return html("var", {}, base, subscript === "" ? null : html("sub", {}, subscript), primes);
}

/** The same inside an SVG text. */
export function symbolSpan(symbol: string, after: string): SVGTSpanElement {
  const { base, subscript, primes } = symbolParts(symbol);
  const rest = primes + after;
  return svg(
    "tspan",
    {},
    svg("tspan", { class: "quantity" }, base),
    subscript === "" ? null : svg("tspan", { dy: "0.3em", "font-size": "75%" }, subscript),
    rest === "" ? null : svg("tspan", { dy: subscript === "" ? 0 : "-0.22em" }, rest),
  );
}

/** An equation as print sets it, one line for each of several. */
export const equationNode = (equation: string, symbols: ReadonlySet<string>): HTMLElement =>
  html(
    "span",
    { class: "equation" },
    equationLines(equation, symbols).map((line, i) => [i === 0 ? null : html("br", {}), line.map(pieceNode)]),
  );

const pieceNode = (piece: EquationPiece): Child =>
  "text" in piece
    ? piece.text
    : "symbol" in piece
      ? symbolNode(piece.symbol)
      : html("sup", {}, piece.raised.map(pieceNode));

/** A sentence of a record with its symbols as print sets them. */
export function sentenceNodes(sentence: string, record: RunRecord): Child {
  const nodes = sentencePieces(sentence, record).map((piece) =>
    "symbol" in piece ? symbolNode(piece.symbol) : piece.text,
  );
  return isAsFiled(sentence) ? html("span", { lang: "en" }, nodes) : nodes;
}

/** A label of a table as nodes of the page. */
export const labelNodes = (label: Label): Child =>
  runsOf(label).map((run) => ("words" in run ? run.words : [symbolNode(run.symbol), run.after]));

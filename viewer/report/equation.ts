import { equationLines, type EquationPiece } from "../present/equation.ts";
import { html, type Child, type Markup } from "./markup.ts";
import { symbolMarkup } from "./symbol.ts";

/** A model equation as print sets it: quantities italic with subscripts lowered, powers raised, one line an equation. */
export const equationMarkup = (equation: string, known: ReadonlySet<string>): Markup =>
  html`<div class="equation" role="math" aria-label="${equation}">
    ${equationLines(equation, known).map((line) => html`<div>${line.map(piece)}</div>`)}
  </div>`;

const piece = (of: EquationPiece): Child =>
  "text" in of ? of.text : "symbol" in of ? symbolMarkup(of.symbol) : html`<sup>${of.raised.map(piece)}</sup>`;

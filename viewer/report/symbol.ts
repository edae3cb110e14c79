import { runsOf } from "../present/pictures/label.ts";
import type { Label } from "../present/pictures/scene.ts";
import { symbolParts } from "../present/symbol.ts";
import { html, type Markup } from "./markup.ts";

/** A symbol as print sets it: italic, its subscript upright. */
export function symbolMarkup(symbol: string): Markup {
  const { base, subscript, primes } = symbolParts(symbol);
  return html`<span class="q"
    ><var>${base}</var>${subscript === "" ? null : html`<sub>${subscript}</sub>`}${primes}</span
  >`;
}

/** The same within an SVG text; what follows returns to the line. */
export function symbolSpans(symbol: string, after = ""): Markup {
  const { base, subscript, primes } = symbolParts(symbol);
  const rest = `${primes}${after}`;
  if (subscript === "") return html`<tspan font-style="italic">${base}</tspan>${rest}`;
  return html`<tspan font-style="italic">${base}</tspan
    ><tspan dy="0.28em" font-size="75%">${subscript}</tspan
    >${rest === "" ? null : html`<tspan dy="-0.21em">${rest}</tspan>`}`;
}

/** A label of a table as HTML. */
export const labelMarkup = (label: Label): Markup =>
  html`${runsOf(label).map((run) => ("words" in run ? run.words : html`${symbolMarkup(run.symbol)}${run.after}`))}`;

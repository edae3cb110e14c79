import { html, type Markup } from "./markup.ts";

/** A symbol taken apart at its underscore, with any prime after the subscript: `R_X′` is R, X, ′. */
export function symbolParts(symbol: string): {
  readonly base: string;
  readonly subscript: string;
  readonly primes: string;
} {
  const primes = /′+$/.exec(symbol)?.[0] ?? "";
  const bare = symbol.slice(0, symbol.length - primes.length);
  const at = bare.indexOf("_");
  return at <= 0
    ? { base: bare, subscript: "", primes }
    : { base: bare.slice(0, at), subscript: bare.slice(at + 1), primes };
}

/** A symbol as print sets it: italic, its subscript upright. */
export function symbolMarkup(symbol: string): Markup {
  const { base, subscript, primes } = symbolParts(symbol);
  return html`<span class="q"
    ><var>${base}</var>${subscript === "" ? null : html`<sub>${subscript}</sub>`}${primes}</span
  >`;
}

/** The same as plain text, for an attribute or a title. */
export const symbolText = (symbol: string): string => {
  const { base, subscript, primes } = symbolParts(symbol);
  return `${base}${subscript === "" ? "" : ` ${subscript}`}${primes}`;
};

/** The same within an SVG text; what follows returns to the line. */
export function symbolSpans(symbol: string, after = ""): Markup {
  const { base, subscript, primes } = symbolParts(symbol);
  const rest = `${primes}${after}`;
  if (subscript === "") return html`<tspan font-style="italic">${base}</tspan>${rest}`;
  return html`<tspan font-style="italic">${base}</tspan
    ><tspan dy="0.28em" font-size="75%">${subscript}</tspan
    >${rest === "" ? null : html`<tspan dy="-0.21em">${rest}</tspan>`}`;
}

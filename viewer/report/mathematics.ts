import type { ReadEquation } from "../../models/index.ts";
import { mathematics, type MathElement } from "../present/mathematics.ts";
import { own } from "../present/own.ts";
import { escaped, html, type Markup } from "./markup.ts";

/** A typed equation as mathematics, one line each. */
export const mathematicsMarkup = ({ equations, symbols, texts }: ReadEquation, decimalSign: string): Markup =>
  html`<div class="mathematics">
    ${mathematics(equations, (name) => own(symbols, name) ?? name, texts, decimalSign).map((line) => ({ markup: markupOf(line) }))}
  </div>`;

const markupOf = ({ tag, attributes = {}, children }: MathElement): string => {
  const stated = Object.entries(attributes).map(([name, value]) => ` ${name}="${escaped(value)}"`);
  const inside = children.map((child) => (typeof child === "string" ? escaped(child) : markupOf(child)));
  return `<${tag}${stated.join("")}>${inside.join("")}</${tag}>`;
};

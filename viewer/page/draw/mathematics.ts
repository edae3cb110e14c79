import { words } from "../language.ts";
import type { MathElement } from "../../present/mathematics.ts";
import { html } from "./node.ts";

const MATHML = "http://www.w3.org/1998/Math/MathML";

function mathNode({ tag, attributes = {}, children }: MathElement): Element {
  const node = document.createElementNS(MATHML, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  for (const child of children) node.append(typeof child === "string" ? child : mathNode(child));
  return node;
}

/** Equations as mathematics, one a line; a line too wide for its place scrolls. */
export const mathematicsNode = (lines: readonly MathElement[], id: string): HTMLElement =>
  html(
    "div",
    { class: "mathematics", id, tabindex: 0, role: "group", "aria-label": words.draw.equation },
    lines.map(mathNode),
  );

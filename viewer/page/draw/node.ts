import { isPressedIn, onRelease } from "./press.ts";

/** An attribute's value: a function listens to the event `on…` names; `null`, `undefined` and `false` leave it out. */
export type Attribute = string | number | boolean | null | undefined | ((event: never) => void);
export type Attributes = Readonly<Record<string, Attribute>>;
export type Child = Node | string | null | readonly Child[];

const SVG = "http://www.w3.org/2000/svg";

/** An HTML element with attributes and children. */
export function html<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  return furnish(document.createElement(tag), attributes, children);
}

/** An SVG element with attributes and children. */
export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): SVGElementTagNameMap[K] {
  return furnish(document.createElementNS(SVG, tag), attributes, children);
}

function furnish<E extends HTMLElement | SVGElement>(
  element: E,
  attributes: Attributes,
  children: readonly Child[],
): E {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (typeof value === "function") element.addEventListener(name.slice(2), value as EventListener);
    // Through the object model, so that a strict content security policy lets it pass.
    else if (name === "style") element.style.cssText = String(value);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  append(element, children);
  return element;
}

/** Adds children, leaving out `null`. */
export function append(element: Element, children: readonly Child[]): void {
  for (const child of children) {
    if (child === null) continue;
    if (typeof child === "string" || child instanceof Node) element.append(child);
    else append(element, child);
  }
}

/** Redraws that wait until what is pressed inside their element is released, the newest of each. */
const waiting = new Map<Element, () => void>();
onRelease(() => {
  const all = [...waiting];
  waiting.clear();
  for (const [element, draw] of all) redraw(element, draw);
});

/**
 * Redraws the inside of an element while what has the focus keeps it, found again by its id. While a link or a button inside
 * is pressed the redraw waits: a press that meets the release of another element is lost.
 */
export function redraw(element: Element, draw: () => void): void {
  if (isPressedIn(element)) {
    waiting.set(element, draw);
    return;
  }
  waiting.delete(element);
  const active = document.activeElement;
  const id = active !== null && element.contains(active) ? active.id : "";
  draw();
  if (id !== "" && document.activeElement?.id !== id) document.getElementById(id)?.focus({ preventScroll: true });
}

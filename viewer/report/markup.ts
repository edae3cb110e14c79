import { filled } from "../present/fill.ts";
/** Text that is HTML (or SVG) already. Everything else is escaped when it is put in. */
export interface Markup {
  readonly markup: string;
}

export type Child = Markup | string | number | null | readonly Child[];

const ESCAPES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};
/** Characters that XML 1.0 and HTML have no place for, even escaped. */
// eslint-disable-next-line no-control-regex
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/g;

/** Text that stands for itself between tags and in a quoted attribute. */
export const escaped = (text: string): string =>
  text.replace(FORBIDDEN, "\ufffd").replace(/[&<>"']/g, (character) => ESCAPES[character]!);

const rendered = (child: Child): string => {
  if (child === null) return "";
  if (typeof child === "string") return escaped(child);
  if (typeof child === "number") return String(child);
  if ("markup" in child) return child.markup;
  return child.map(rendered).join("");
};

/** HTML from a template: what is put in is escaped unless it is markup itself. */
export const html = (strings: TemplateStringsArray, ...children: readonly Child[]): Markup => ({
  markup: strings.map((text, i) => text + (i < children.length ? rendered(children[i]!) : "")).join(""),
});

export const joinMarkup = (children: readonly Child[], separator: Child): Markup => ({
  markup: children.map(rendered).join(rendered(separator)),
});

/**
 * A message with its places filled: `fill("{a} of {b}", { a: 1, b: html`<i>2</i>` })`.
 *
 * @throws {Error} a place that nothing is given for: a fault in a message file
 */
export const fill = (message: string, parts: Readonly<Record<string, Child>>): Markup => ({
  markup: filled(message, parts).map(rendered).join(""),
});

/** A string in a style sheet: every character that is not a plain letter or figure by its number, so that none can end it. */
export const cssString = (text: string): string =>
  `"${[...text.replace(FORBIDDEN, "\ufffd")].map((character) => (/[A-Za-z0-9 ]/.test(character) ? character : `\\${character.codePointAt(0)!.toString(16)} `)).join("")}"`;

import { words } from "../language.ts";
import { html } from "../draw/node.ts";
import { createGlossary } from "./glossary.ts";
import { guide } from "./guide.ts";

/** Help: how to work with the page, and the words that it uses. */
export function createHelp(): { readonly show: (word: string | null) => HTMLElement } {
  const glossary = createGlossary();
  const element = html(
    "div",
    { class: "help" },
    html("header", { class: "sheet-head" }, html("h1", { id: "sheet-title", tabindex: -1 }, words.frame.help)),
    ...guide(),
    glossary.element,
  );
  let shown: string | null | undefined;
  return {
    show: (word) => {
      if (word !== shown) {
        shown = word;
        glossary.show(word);
      }
      return element;
    },
  };
}

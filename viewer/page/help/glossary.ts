import { LANGUAGES } from "../language-choice.ts";
import { messages } from "../language.ts";
import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { glossary, type Word } from "../../present/glossary/index.ts";
import { glossaryPieces } from "../../present/glossary/symbols.ts";
import { writeAddress } from "../address.ts";
import { html, type Child } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import { matches } from "../library/listing.ts";

type GlossaryLanguage = keyof typeof LANGUAGES;

/** What a search reads of a word: both languages, so that a term known in one finds that of the other. */
const textsOf = ({ symbol, en, de, sources }: Word): readonly (string | null)[] => [
  symbol?.replace("_", "") ?? null,
  symbol,
  en.term,
  en.meaning,
  de.term,
  de.meaning,
  ...sources,
];

const set = (text: string): Child =>
  glossaryPieces(text).map((piece) => ("symbol" in piece ? symbolNode(piece.symbol) : piece.text));

/** The words of the page with what they mean: searched, in either language, each at an address of its own. */
export function createGlossary(): { readonly element: HTMLElement; readonly show: (word: string | null) => void } {
  let language: GlossaryLanguage = messages.language;
  let asked: string | null = null;
  const search = html("input", {
    type: "search",
    id: "find-word",
    autocomplete: "off",
    spellcheck: "false",
    oninput: () => draw(),
  });
  const said = html("p", { class: "note", id: "words-found", role: "status" });
  const list = html("dl", { class: "glossary", id: "glossary" });
  const switches = (Object.keys(LANGUAGES) as GlossaryLanguage[]).map((code) =>
    html(
      "button",
      {
        type: "button",
        class: "quiet small",
        id: `glossary-${code}`,
        lang: code,
        "aria-pressed": "false",
        onclick: () => {
          language = code;
          draw();
        },
      },
      LANGUAGES[code],
    ),
  );

  const draw = (): void => {
    for (const button of switches) button.setAttribute("aria-pressed", String(button.id === `glossary-${language}`));
    const found = glossary.filter((word) => matches(search.value, textsOf(word)));
    said.textContent =
      found.length === 0
        ? words.help.noWord
        : found.length === glossary.length
          ? ""
          : fillText(words.help.found, { n: String(found.length), all: String(glossary.length) });
    list.lang = language;
    list.replaceChildren(...found.map((word) => entry(word, language, word.id === asked)));
  };

  draw();
  return {
    element: html(
      "section",
      { class: "panel" },
      html("h2", { id: "glossary-title" }, words.help.glossary),
      html(
        "div",
        { class: "find" },
        html("label", { for: "find-word" }, words.help.find),
        search,
        html("span", { class: "buttons", role: "group", "aria-label": words.help.language }, switches),
      ),
      said,
      list,
    ),
    show: (word) => {
      asked = word;
      // A word that was asked for is not hidden by an earlier search.
      if (word !== null) search.value = "";
      draw();
    },
  };
}

function entry({ id, symbol, sources, ...texts }: Word, language: GlossaryLanguage, asked: boolean): HTMLElement {
  const { term, meaning } = texts[language];
  const other: GlossaryLanguage = language === "en" ? "de" : "en";
  return html(
    "div",
    { id: `word-${id}`, "data-asked": asked ? "true" : null },
    html(
      "dt",
      asked ? { tabindex: -1, "data-arrive": "true" } : {},
      html("a", { href: writeAddress({ kind: "help", word: id }), id: `link-${id}` }, set(term)),
      symbol === null || term.includes(symbol) ? null : [" ", symbolNode(symbol)],
      html("span", { class: "note", lang: other }, set(texts[other].term)),
    ),
    html(
      "dd",
      {},
      html("p", {}, set(meaning)),
      sources.length === 0 ? null : html("p", { class: "note" }, sources.join("; ")),
    ),
  );
}

import { writeAddress } from "../address.ts";
import { html } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import { messages } from "../language.ts";
import { words } from "../language.ts";

/** Words of a sheet that a reader may not know, as the glossary names them, in the order in which the sheet has them. */
const WORDS = [
  "verdict",
  "linear-budget",
  "numerical-tolerance",
  "coverage-interval",
  "coverage-probability",
  "coverage-factor",
  "effective-degrees-of-freedom",
  "endpoint",
  "trial",
  "standard-error",
  "stabilised",
] as const;

let line: HTMLElement | null = null;

/** One quiet line under the head of a sheet: its words, each a link to what it means. The glossary is loaded meanwhile. */
export function sheetWords(): HTMLElement {
  if (line !== null) return line;
  const made = html("p", { class: "sheet-words", id: "sheet-words" });
  line = made;
  import("../../present/glossary/index.ts").then(
    ({ glossary }) => {
      const links = WORDS.flatMap((id) => {
        const word = glossary.find((one) => one.id === id);
        if (word === undefined) return [];
        const { symbol } = word;
        const { term } = word[messages.language];
        return [
          html(
            "a",
            { href: writeAddress({ kind: "help", word: id }), id: `word-${id}` },
            term,
            symbol === null ? null : [" ", symbolNode(symbol)],
          ),
        ];
      });
      made.replaceChildren(
        `${words.sheet.onThisSheet} `,
        ...links.flatMap((link, i) => (i === 0 ? [link] : [" · ", link])),
      );
    },
    // Without the server the sheet stands without it; help says so when it is asked for.
    () => (line = null),
  );
  return made;
}

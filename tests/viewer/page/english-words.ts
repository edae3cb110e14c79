// What is English on a page in German: words that the English texts of the page have and the German ones never do.
import type { Page } from "playwright-core";
import { de as germanMessages } from "../../../viewer/present/messages/de/index.ts";
import { en as englishMessages } from "../../../viewer/present/messages/en/index.ts";
import { GERMAN } from "../../../viewer/present/messages/phrases/index.ts";
import { de as germanWords } from "../../../viewer/page/words/de/index.ts";
import { laterDe } from "../../../viewer/page/words/de/later.ts";
import { en as englishWords } from "../../../viewer/page/words/en/index.ts";
import { laterEn } from "../../../viewer/page/words/en/later.ts";

/** Every text within a value. */
export const textsIn = (value: unknown): string[] =>
  typeof value === "string"
    ? [value]
    : typeof value === "object" && value !== null
      ? Object.values(value).flatMap(textsIn)
      : [];
const wordsIn = (texts: readonly string[]): Set<string> =>
  new Set(
    texts.flatMap((text) => (text.replaceAll(/\{\w+\}/g, " ").match(/\p{L}{3,}/gu) ?? []).map((w) => w.toLowerCase())),
  );

/** Words of the English texts that German ones never have; not those that are German too. */
const germanOnes = wordsIn([...textsIn(germanMessages), ...textsIn([germanWords, laterDe]), ...Object.values(GERMAN)]);
const ALSO_GERMAN = new Set(["equation", "english", "was", "die", "not", "log", "data", "low", "load"]);
export const ENGLISH_ALONE = [...wordsIn([...textsIn(englishMessages), ...textsIn([englishWords, laterEn])])].filter(
  (word) => !germanOnes.has(word) && !ALSO_GERMAN.has(word),
);

/**
 * Texts on a page with words that German does not have; what is marked as English is left out.
 *
 * @param own texts of studies and files in their own words, which are left out too
 */
export const englishOn = (page: Page, own: readonly string[]): Promise<string[]> =>
  page.evaluate(
    ({ words, texts }) => {
      const known = new Set(words);
      const found = new Set<string>();
      const judge = (text: string): void => {
        let rest = text;
        for (const one of texts) rest = rest.replaceAll(one, "");
        const wrong = (rest.match(/\p{L}{3,}/gu) ?? []).filter((word) => known.has(word.toLowerCase()));
        if (wrong.length > 0) found.add(`${wrong.slice(0, 4).join(", ")}: ${text.trim().slice(0, 120)}`);
      };
      const isApart = (element: Element): boolean =>
        element.closest('[lang^="en"], code, kbd, pre, var, script, style, noscript, #glossary, #announcer') !== null;
      const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = walk.nextNode(); node !== null; node = walk.nextNode())
        if (!isApart(node.parentElement!)) judge(node.textContent ?? "");
      for (const name of ["aria-label", "title", "placeholder", "data-label", "data-title"])
        for (const element of document.querySelectorAll(`[${name}]`))
          if (!isApart(element)) judge(element.getAttribute(name)!);
      return [...found];
    },
    { words: ENGLISH_ALONE, texts: own.toSorted((a, b) => b.length - a.length) },
  );

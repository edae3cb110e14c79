import type { RunRecord } from "../../engine/index.ts";
import { en as messagesInEnglish } from "../present/messages/en/index.ts";
import type { Language } from "../present/messages/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { numbersWith } from "../present/numbers.ts";
import { ENGLISH, type Speech } from "../present/statement.ts";
import { en as wordsInEnglish } from "./words/en/index.ts";
import type { LaterWords, PageWords } from "./words/words.ts";

/** Words that page, report and terminal share, in the language of the page. */
export let messages: Messages = messagesInEnglish;

/** Words of the page alone, in its language. */
export let words: PageWords = wordsInEnglish;

/** Words of views that are loaded later, in the language of the page if it is another than English. */
export let laterInLanguage: LaterWords | null = null;

/** The language of the page as the tables and sentences of every medium take it. */
export let speech: Speech = ENGLISH;

/**
 * A record as the page shows it: what it carries in English, sentences and words of its model, in the language of the page.
 * The record itself stays as it is, for whoever saves it.
 */
export let shownRecord: (record: RunRecord) => RunRecord = (record) => record;

/** Whether a sentence is one that a record has in English alone, though the page speaks another language. */
export let isAsFiled: (sentence: string) => boolean = () => false;

/**
 * Sets the language of the page. Called once, before anything else of the page is loaded: texts are read as modules are
 * loaded, and are not drawn anew when it changes.
 */
export async function speak(language: Language): Promise<void> {
  document.documentElement.lang = language === "en" ? "en-GB" : language;
  if (language === "en") return;
  const [present, own, later, german] = await Promise.all([
    import("../present/messages/de/index.ts"),
    import("./words/de/index.ts"),
    import("./words/de/later.ts"),
    import("./german.ts"),
  ]);
  [messages, words, laterInLanguage] = [present.de, own.de, later.laterDe];
  const { decimalSign, separator, to } = messages;
  speech = { messages, numbers: numbersWith(decimalSign, separator, to), translate: german.translate };
  shownRecord = german.recordInGerman;
  isAsFiled = german.isAsFiled;
}

import { en as messagesInEnglish } from "../present/messages/en/index.ts";
import type { Language } from "../present/messages/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { en as wordsInEnglish } from "./words/en/index.ts";
import type { PageWords } from "./words/words.ts";

/** Words that page, report and terminal share, in the language of the page. */
export let messages: Messages = messagesInEnglish;

/** Words of the page alone, in its language. */
export let words: PageWords = wordsInEnglish;

/**
 * Sets the language of the page. Called once, before anything else of the page is loaded: texts are read as modules are
 * loaded, and are not drawn anew when it changes.
 */
export async function speak(language: Language): Promise<void> {
  if (language === "en") {
    [messages, words] = [messagesInEnglish, wordsInEnglish];
    return;
  }
  const [present, own] = await Promise.all([import("../present/messages/de/index.ts"), import("./words/de/index.ts")]);
  [messages, words] = [present.de, own.de];
}

import { speech } from "../language.ts";
import { html, type Child } from "./node.ts";

/** Whether a text has a word of a language, and not figures and units alone. */
const hasWords = (text: string): boolean => /\p{L}{4,}/u.test(text);

/** A text that is known in English: in the language of the page, or marked as English where it has no words there. */
export function fromEnglish(text: string): Child {
  const { messages, translate } = speech;
  if (messages.language === "en") return text;
  const words = translate(text);
  return words === text && hasWords(text) ? html("span", { lang: "en" }, text) : words;
}

/** The same as a sentence of its own: it begins with a capital letter and ends with a full stop. */
export function sentenceFromEnglish(text: string): Child {
  const words = speech.translate(text);
  const sentence = `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
  return words === text && speech.messages.language !== "en" ? html("span", { lang: "en" }, sentence) : sentence;
}

/** The language of a title: what the program ships is written in English, what a laboratory writes in any. */
export const titleLanguage = (study: string | null | undefined): "en" | null =>
  /^(harrowfen|published|platinum|verdicts|equation|density)\//.test(study ?? "") ? "en" : null;

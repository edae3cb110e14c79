import { speech } from "../language.ts";
import { html, type Child } from "./node.ts";

/** A text that is known in English: in the language of the page, or marked as English where it has no words there. */
export function fromEnglish(text: string): Child {
  const { messages, translate } = speech;
  if (messages.language === "en") return text;
  const words = translate(text);
  return words === text ? html("span", { lang: "en" }, text) : words;
}

/** The language of a title: what the program ships is written in English, what a laboratory writes in any. */
export const titleLanguage = (study: string | null | undefined): "en" | null =>
  /^(harrowfen|published|platinum|verdicts|equation|density)\//.test(study ?? "") ? "en" : null;

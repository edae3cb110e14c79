import { speech } from "../language.ts";
import { TABLE_PLACES } from "../words/de/table-places.ts";

/** What is said of a table, in the language of the page. */
export function tableWords(text: string): string {
  if (speech.messages.language === "en") return text;
  const words = speech.translate(text);
  return TABLE_PLACES.reduce((german, [pattern, place]) => german.replace(pattern, place), words);
}

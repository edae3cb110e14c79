import { fieldWords } from "../present/field-words.ts";
import { own } from "../present/own.ts";
import { messages } from "./language.ts";
import { words } from "./later-words.ts";

/** A field's name in the language of the page; a name that is not known there is taken apart into English words. */
export const fieldName = (name: string): string =>
  own(words.fields as Readonly<Record<string, string>>, name) ?? fieldWords(name);

/** A label within a sentence: English writes it small, German nouns keep their capital. */
export const withinSentence = (label: string): string => (messages.language === "en" ? label.toLowerCase() : label);

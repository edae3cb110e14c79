import { laterInLanguage, words as first } from "./language.ts";
import { laterEn } from "./words/en/later.ts";

/**
 * The page's words with those of the views that are loaded when they are first asked for. Only such a view imports this:
 * its words are then loaded with it, and the first view does not wait for them.
 */
export const words = { ...first, ...(laterInLanguage ?? laterEn) };

import { de } from "./de/index.ts";
import { en } from "./en/index.ts";
import type { Messages } from "./messages.ts";

/** Every language of the sentences: one line per language. */
export const languages = { en, de } as const satisfies Readonly<Record<string, Messages>>;

/** A language of the sentences, by its code (ISO 639-1): English or German. */
export type Language = keyof typeof languages;

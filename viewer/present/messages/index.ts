import { de } from "./de/index.ts";
import { en } from "./en/index.ts";
import type { Messages } from "./messages.ts";

/** Every language a report can be written in: one line a language. */
export const languages = { en, de } as const satisfies Readonly<Record<string, Messages>>;

export type Language = keyof typeof languages;
export const isLanguage = (name: string): name is Language => Object.hasOwn(languages, name);

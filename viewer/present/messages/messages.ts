import type { Language } from "../../../engine/index.ts";
import type { en } from "./en/index.ts";

/** The same keys with any text in place of the English one. */
export type Worded<T> = { readonly [K in keyof T]: T[K] extends string ? string : Worded<T[K]> };

/** All words of a report in one language: a language file that lacks one does not compile. `{…}` is filled in. */
export type Messages = Worded<typeof en> & { readonly language: Language };

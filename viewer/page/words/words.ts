import type { Worded } from "../../present/messages/messages.ts";
import type { en } from "./en/index.ts";
import type { laterEn } from "./en/later.ts";

/** The page's own words in one language: a language that lacks one does not compile. `{…}` is filled in (`fill`). */
export type PageWords = Worded<typeof en>;

/** The words of views that are loaded when they are first asked for. */
export type LaterWords = Worded<typeof laterEn>;

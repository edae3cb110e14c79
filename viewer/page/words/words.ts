import type { Worded } from "../../present/messages/messages.ts";
import type { en } from "./en/index.ts";

/** The page's own words in one language: a language that lacks one does not compile. `{…}` is filled in (`fill`). */
export type PageWords = Worded<typeof en>;

import { FLUIDS as KNOWN } from "../present/fluids.ts";
import { speech } from "./language.ts";

/** Fluids of a bath by their kind in a study, in the language of the page. */
export const FLUIDS: readonly (readonly [kind: string, words: string])[] = KNOWN.map(
  ([kind, text]) => [kind, speech.translate(text)] as const,
);

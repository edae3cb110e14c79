import { programWords } from "./program.ts";
import { trialWords } from "./trials.ts";
import { uncertaintyWords } from "./uncertainty.ts";
import type { Word } from "./word.ts";

/** Every word explained, in an order in which each rests on those before. */
export const glossary: readonly Word[] = [...programWords, ...uncertaintyWords, ...trialWords];

export type { Word, WordText } from "./word.ts";

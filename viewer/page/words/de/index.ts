import type { PageWords } from "../words.ts";
import { assessorWords } from "./assessor.ts";
import { roomWords } from "./rooms.ts";

/** What the page alone says, in German. */
export const de: PageWords = { assessor: assessorWords, rooms: roomWords };

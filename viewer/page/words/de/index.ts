import type { PageWords } from "../words.ts";
import { roomWords } from "./rooms.ts";

/** What the page alone says, in German. */
export const de: PageWords = { rooms: roomWords };

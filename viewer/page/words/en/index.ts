import { assessorWords } from "./assessor.ts";
import { roomWords } from "./rooms.ts";

/** What the page alone says, in English: one file a room. What report and terminal say too stands in viewer/present. */
export const en = { assessor: assessorWords, rooms: roomWords } as const;

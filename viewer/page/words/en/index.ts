import { roomWords } from "./rooms.ts";

/** What the page alone says, in English: one file a room. What report and terminal say too stands in viewer/present. */
export const en = { rooms: roomWords } as const;

import type { PageWords } from "../words.ts";
import { assessorWords } from "./assessor.ts";
import { roomWords } from "./rooms.ts";
import { howWords } from "./hows.ts";
import { frameWords } from "./frame.ts";
import { actionsWords } from "./actions.ts";
import { shelfWords } from "./shelf.ts";
import { libraryWords } from "./library.ts";
import { draftsWords } from "./drafts.ts";
import { sheetWords } from "./sheet.ts";
import { drawWords } from "./draw.ts";
import { openFileWords } from "./open-file.ts";
import { startWords } from "./start.ts";
import { takeAwayWords } from "./take-away.ts";

/** What the page alone says in German when it opens: one file a room. Views that are loaded later have theirs in `later.ts`. */
export const de: PageWords = {
  assessor: assessorWords,
  rooms: roomWords,
  frame: frameWords,
  hows: howWords,
  actions: actionsWords,
  shelf: shelfWords,
  library: libraryWords,
  drafts: draftsWords,
  sheet: sheetWords,
  draw: drawWords,
  openFile: openFileWords,
  start: startWords,
  takeAway: takeAwayWords,
};

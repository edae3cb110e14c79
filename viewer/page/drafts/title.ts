import { fillText } from "../../present/fill.ts";
import { words } from "../language.ts";

/** The heading over a study that is written: what it was called when it was opened, or that it is new. */
export const draftTitle = (title = ""): string =>
  title.trim() === "" ? words.frame.newStudy : fillText(words.frame.editing, { title: title.trim() });

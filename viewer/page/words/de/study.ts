import type { LaterWords } from "../words.ts";

/** What is done with a study that is not yet run, in German. */
export const studyWords: LaterWords["study"] = {
  run: "Diese Studie rechnen",
  save: "Als Datei speichern",
};

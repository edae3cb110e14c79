import type { PageWords } from "../words.ts";

export const roomWords: PageWords["rooms"] = {
  notLoaded: "Dieser Teil der Seite konnte nicht geladen werden",
  loadAgain: "Der Server hat nicht geantwortet oder hat eine neuere Fassung der Seite. Laden Sie die Seite neu.",
};

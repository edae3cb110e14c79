import type { PageWords } from "../words.ts";

export const assessorWords: PageWords["assessor"] = {
  noVerdict: "Kein Urteil",
  cancelled:
    "Der Lauf wurde nach {trials} Versuchen abgebrochen; es gibt kein Urteil. Die Werte unten stehen für nichts.",
  failed: "Der Lauf ist nach {trials} Versuchen gescheitert; es gibt kein Urteil. Die Werte unten stehen für nichts.",
  provisional: "Vorläufig: Der Lauf geht weiter, und jede Serie von Versuchen kann dies ändern.",
};

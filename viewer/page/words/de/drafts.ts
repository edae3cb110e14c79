import type { PageWords } from "../words.ts";

/** Drafts, in German. */
export const draftsWords: PageWords["drafts"] = {
  copy: "Eine Kopie: gerechnet wird sie eine eigene Studie neben {name}.",
  versions: {
    one: "Gerechnet wird daraus eine neue Fassung von {name}; bisher gibt es eine. Frühere Läufe behalten ihre.",
    other: "Gerechnet wird daraus eine neue Fassung von {name}; bisher gibt es {n}. Frühere Läufe behalten ihre.",
  },
  ages: {
    minute: { one: "vor {n} Minute", other: "vor {n} Minuten" },
    hour: { one: "vor {n} Stunde", other: "vor {n} Stunden" },
    day: { one: "vor {n} Tag", other: "vor {n} Tagen" },
  },
  where: {
    unchanged: "Was Sie schreiben, wird als Entwurf aufbewahrt, bis Sie es rechnen lassen oder verwerfen.",
    sending: "Wird aufbewahrt…",
    kept: "Als Entwurf aufbewahrt.",
    here: "Der Server antwortet nicht. Was Sie schreiben, wird in diesem Browser aufbewahrt und gesendet, wenn der Server wieder da ist.",
    nowhere:
      "Weder der Server noch dieser Browser bewahrt auf, was Sie schreiben. Bitte als Datei speichern, bevor Sie die Seite verlassen.",
  },
  all: "Alle Entwürfe und Studien",
  asVersion: "Stattdessen eine neue Fassung daraus machen",
  asCopy: "Stattdessen eine Kopie daraus machen",
  justNow: "gerade eben",
  untitled: "Noch ohne Titel",
  changed: "geändert {age}",
  discardOne: "Den Entwurf {title} verwerfen",
  discard: "Verwerfen",
  discarded: "„{title}“ wurde verworfen.",
};

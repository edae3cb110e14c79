import type { PageWords } from "../words.ts";

/** The list of studies and the latest runs, in German. */
export const shelfWords: PageWords["shelf"] = {
  trials: { one: "{outcome}, {n} Versuch", other: "{outcome}, {n} Versuche" },
  search: "Suchen, vergleichen, entfernen",
  all: "Alle {n} Läufe: suchen, vergleichen, entfernen",
  groups: {
    published: "Durchgerechnete Beispiele der Normen",
    platinum: "Platinthermometer",
    verdicts: "Eines für jedes Urteil",
  },
  write: "Eine neue Studie schreiben",
  own: "Eigene Studien, Entwürfe",
  find: "Eine Studie suchen",
  reading: "Die Liste der Studien wird gelesen…",
  open: "Datei öffnen",
  openNote:
    "eine Studie, eine Budgettabelle (CSV, XLSX), ein Protokoll oder die Beschreibung einer Vermessung zusammen mit ihrer Aufzeichnung; oder irgendwo auf der Seite ablegen",
  noStudies: "Der Server hat keine Studien: bitte eine Datei öffnen oder eine neue schreiben.",
  noneFound: "Keine Studie hat alle diese Wörter.",
  latest: "Letzte Läufe",
  readingRuns: "Die Liste der Läufe wird gelesen…",
  none: "Noch keine.",
};

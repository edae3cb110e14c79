import type { LaterWords } from "../words.ts";

/** The check of the installation, in German. */
export const selfcheckWords: LaterWords["selfcheck"] = {
  pass: "erfüllt",
  fail: "NICHT ERFÜLLT",
  lost: "Die Verbindung zum Server ging verloren, bevor die Prüfung beendet war. Was sie bis dahin fand, steht unten.",
  quick: "Schnell prüfen",
  full: "Vollständig prüfen",
  stop: "Anhalten",
  made: "Erfolgte Prüfungen",
  asFile:
    "Aufgeklappt zeigt jede Gruppe ihre Zeilen; gedruckt zeigt die Seite sie alle. Dasselbe als Datei für die Qualitätsakten:",
  ended: "Die Prüfung ist beendet: {tally}.",
  notEnded: "Die Prüfung wurde nicht beendet",
  starting: "Beginnt…",
  started: "Die Prüfung hat begonnen.",
  closing: "Wird abgeschlossen…",
  step: "{done} von {all}. Jetzt: {title}",
  stopped: "Sie wurde angehalten. Was sie bis dahin fand, steht unten.",
  kind: "Diese Installation",
  question: "Rechnet sie, was sie soll?",
  about:
    "Die veröffentlichten durchgerechneten Beispiele, Tabellen, geschlossenen Formen und Tests der Zufallszahlen werden hier und jetzt gerechnet. Jede Zeile nennt ihre Quelle, den veröffentlichten Wert, den erhaltenen und wie weit beide auseinanderliegen dürfen. ",
  durations:
    "Schnell dauert Sekunden, mit weniger Versuchen und weniger Punkten der langen Tabellen; vollständig eine oder zwei Minuten.",
};

import type { PageWords } from "../words.ts";

export const assessorWords: PageWords["assessor"] = {
  noVerdict: "Kein Urteil",
  cancelled:
    "Der Lauf wurde nach {trials} Versuchen abgebrochen; es gibt kein Urteil. Die Werte unten stehen für nichts.",
  failed: "Der Lauf ist nach {trials} Versuchen gescheitert; es gibt kein Urteil. Die Werte unten stehen für nichts.",
  provisional: "Vorläufig: Der Lauf geht weiter, und jede Serie von Versuchen kann dies ändern.",
  title: "Für die Begutachtung",
  alteredHead: "Dieses Protokoll wurde verändert, nachdem es geschrieben war.",
  altered:
    "Seine Prüfsummen sind nicht die seines Inhalts. Kein Wert auf diesem Blatt belegt etwas; das Urteil unten ist durchgestrichen, und es wird kein Bericht daraus gemacht. „Protokoll prüfen“ zeigt, was von einer Wiederholung abweicht.",
  struck: "durchgestrichen, weil das Protokoll verändert wurde: ",
  printCustomer: "Eine Seite für den Kunden drucken",
  language: "Sprache des Berichts",
  english: "Englisch",
  german: "Deutsch",
  paper: "Papier",
  reportHtml: "Bericht herunterladen (HTML)",
  reportPdf: "Bericht herunterladen (PDF)",
  dossier: "Dossier herunterladen (ZIP)",
  dossierNote:
    "Das Dossier enthält alles, worauf dieses Ergebnis beruht: Protokoll, Studie, Aufzeichnungen und Kalibrierscheine, Berichte in beiden Sprachen und wie sie zu prüfen sind.",
  verify: "Protokoll prüfen",
  stop: "Anhalten",
  making: "Wird erstellt…",
  saved: "Gespeichert als {file}.",
  savedMissing:
    "Gespeichert als {file}. Nicht darin: {count} der Dateien, auf denen die Studie beruht; dieser Server hat sie nicht. Das Dossier nennt sie.",
  noChromium:
    "Der Server hat kein Chromium, um ein PDF zu erstellen; der Bericht wird zum Drucken geöffnet: „Als PDF speichern“ wählen.",
  noChromiumFile:
    "Der Server hat kein Chromium, um ein PDF zu erstellen. Der Bericht wurde als {file} gespeichert: öffnen und als PDF drucken.",
  failedToMake: "Dies konnte nicht erstellt werden: {message}",
  waiting: "Es wird auf die ersten Versuche gewartet…",
  repeating: "Die Studie wird noch einmal gerechnet: {trials} von höchstens {limit} Versuchen.",
  repeatingAgain:
    "Eine andere Version hat dieses Protokoll gemacht; es wird mit Wiederholungen verglichen: Nummer {repetition} von 13, {trials} Versuche.",
  progress: "Fortschritt der Prüfung",
  stopped: "Angehalten. Es wurde nichts gefunden, weder dafür noch dagegen.",
  lost: "Die Verbindung zum Server ging verloren, bevor die Prüfung beendet war.",
  outcome: {
    bits: "Geprüft: Alle {figures} Werte ergeben sich genau wieder, Bit für Bit.",
    agrees: "Stimmt überein, aber nicht Bit für Bit nachgewiesen: Eine andere Version war beteiligt.",
    refused: "Abgelehnt.",
  },
  differs: "Was abweicht",
  place: "Wert",
  filed: "Im Protokoll",
  repeated: "Noch einmal gerechnet",
  details: "Was geprüft wurde, in den Worten des Programms",
  digests: "Prüfsummen (SHA-256)",
  ofRecord: "Protokoll",
  ofResults: "Ergebnisse",
  ofStudy: "Studie",
  ofModel: "Quelltext des Modells",
  ofEngine: "Quelltext des Programms",
  version: "Programm",
  commit: "Commit {commit}",
  noCommit: "Commit nicht bekannt",
  unbuilt: "nicht bekannt: Das Programm lief ungebaut",
  noSeal: "Dieses Protokoll hat keine eigenen Prüfsummen.",
};

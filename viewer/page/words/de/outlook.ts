import type { LaterWords } from "../words.ts";

/** Der Raum der Pläne, Verläufe und Vergleiche, auf Deutsch. */
export const outlookWords: LaterWords["outlook"] = {
  intro:
    "Öffnen Sie einen Plan für eine kleinere Unsicherheit über den Bereich, den Verlauf eines Geräts oder Bads über Jahre oder einen Vergleich zwischen Laboratorien, mit den Dateien, die er nennt. Behalten werden nur die Läufe, die Sie starten.",
  open: "Dateien eines Plans, Verlaufs oder Vergleichs öffnen",
  openNote: "Das Dokument endet auf .json. Wählen Sie alle seine Dateien auf einmal.",
  examples: "Beispiele",
  examplePlan: "Plan: 15 mK von −40 °C bis 134 °C",
  exampleHistory: "Verlauf: Normal HR-02 von 2019 bis 2026",
  exampleComparison: "Vergleich: ein Fühler bei −40 °C in sechs Räumen",
  reading: "{count} Dateien werden gelesen…",
  readingExample: "Das Beispiel wird gelesen…",
  read: "{title} ist ausgewertet.",
  notRead: "Die Dateien sind nicht verwendbar",
  notRun: "Der Vorschlag wurde nicht bestätigt",
  confirm: "Den Vorschlag durch einen Lauf bestätigen",
  running: "Die vorgeschlagene Studie läuft: {percent}",
  waiting: "Die vorgeschlagene Studie wartet, bis sie an der Reihe ist",
  confirmed: "Der Lauf ist beendet.",
  failed: "Der Lauf endete: {reason}",
  run: "Den Lauf als Blatt öffnen",
  files: "Dateien",
};

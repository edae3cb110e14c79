import type { LaterWords } from "../words.ts";

/** Help and glossary, in German. */
export const helpWords: LaterWords["help"] = {
  keepRuns: "Läufe",
  noWord: "Kein Wort hat all das. Bitte eine andere Schreibweise versuchen, oder ein Symbol wie k.",
  found: "{n} von {all} Wörtern",
  glossary: "Glossar",
  find: "Ein Wort oder Symbol suchen",
  language: "Sprache des Glossars",
  bring: "Ein Budget mitbringen",
  bring1: "Die Tabelle öffnen, die Sie führen (CSV oder XLSX), ein ",
  bringNew: "neues Budget",
  bring2: " ausfüllen oder die ",
  bringSurvey: "Vermessung eines Bades",
  bring3: " auswerten. Was noch nicht vollständig ist, wird als Entwurf aufbewahrt.",
  check: "Prüfen, wie es gelesen wurde",
  checkText:
    "Jede Zeile wird gezeigt, wie sie verstanden wurde. Eine Zeile, die nicht zu verwenden ist, wird genannt, mit dem, was dort erwartet wird.",
  run: "Rechnen lassen",
  runText:
    "Das lineare Budget und die Versuche werden auf diesem Rechner gerechnet, und das Blatt füllt sich dabei. Nichts verlässt das Laboratorium.",
  read: "Das Urteil lesen",
  readText:
    "Das Blatt sagt, ob das lineare Budget validiert ist und warum, welche Eingangsgröße den Ausschlag gibt und was als Nächstes zu tun ist.",
  keep: "Aufbewahren und zeigen",
  keep1:
    "Jeder Lauf wird mit der Fassung der Studie aufbewahrt, aus der er entstand. Das Blatt lässt sich drucken, zwei ",
  keep2: " lassen sich vergleichen, und die Studie lässt sich bearbeiten und neu rechnen.",
  keys: {
    help: "diese Seite, von überall außer aus einem Feld",
    ctrl: "Strg",
    enter: "Eingabe",
    run: "die gezeigte oder geschriebene Studie rechnen",
    tab: "Tab",
    shiftTab: "Umschalt + Tab",
    next: "das nächste und das vorige Feld, der nächste und der vorige Link oder Knopf",
    alt: "Alt",
    back: "zurück zu dem, was zuvor zu sehen war",
  },
  guide: "Vom Budget zum Urteil",
  safety:
    "Heißes Öl, Flammpunkte, Dämpfe und Kälte verletzen Menschen. Über die Arbeit an einem Bad entscheiden das Sicherheitsdatenblatt der Flüssigkeit, örtliche Vorschriften und befähigte Personen.",
  keyTable: "Tasten",
};

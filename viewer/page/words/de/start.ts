import type { PageWords } from "../words.ts";

/** The first screen, in German. */
export const startWords: PageWords["start"] = {
  evidence: "Oder Ablesungen, eine Eintauchprüfung, einen Kalibrierschein eintippen",
  example: "Oder zuerst ein Beispiel ansehen",
  runExample: "Das Beispiel rechnen",
  exampleNote: "Die Messabweichung eines Fühlers im Ölbad eines Sterilisators bei 134 °C, mit erfundenen Werten.",
  sheetNote: "Ein Nachweisblatt, wie es gedruckt wird: das Urteil, warum, und woher die Unsicherheit kommt.",
  templates: "Vorlagen zum Ausfüllen",
  templateFor: "Vorlage für {title}: ",
  templateKind: "Vorlage für {title}, {kind}",
  question: "Hält Ihr Unsicherheitsbudget?",
  about:
    "Diese Seite stellt das lineare Unsicherheitsbudget einer Messung neben eine Monte-Carlo-Fortpflanzung derselben Eingangsgrößen und sagt, ob das Budget validiert ist und warum. Beginnen Sie mit dem, was Sie haben.",
  ways: "Wege zu beginnen",
  paste: "Oder ihre Zellen einfügen",
  fillIn: "Ein Budget ausfüllen",
  fillInNote:
    "Jede Eingangsgröße mit ihrem Wert, ihrer Unsicherheit und der Art, wie sie bekannt ist. Was Sie schreiben, wird als Entwurf aufbewahrt.",
  survey: "Die Vermessung eines Bades auswerten",
  surveyNote:
    "Aus der Aufzeichnung von Thermometern, die in einem Bad umgesetzt wurden, werden seine Stabilität und seine Temperaturdifferenzen, als Eingangsgrößen.",
  yours: "Ihre Studien und Entwürfe",
  runHere: "Der hier aufbewahrte Lauf",
  runsHere: "Alle {n} hier aufbewahrten Läufe",
  goOn: "Mit einem Entwurf weitermachen",
  importNote:
    "Die Tabelle wählen, die Sie führen, CSV oder XLSX, oder irgendwo auf dieser Seite ablegen. Wie jede Zeile gelesen wurde, ist zu sehen, bevor etwas gerechnet wird.",
};

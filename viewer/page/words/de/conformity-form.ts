import type { LaterWords } from "../words.ts";

export const conformityFormWords: LaterWords["conformityForm"] = {
  note: "Liegt das Ergebnis in einer Toleranz? Geben Sie eine Grenze oder beide in der Einheit des Ergebnisses ein, oder wählen Sie eine Klasse der IEC 60751; der Bericht hat dann die Konformitätswahrscheinlichkeit und die Risiken.",
  how: "Toleranz",
  limits: "Grenzen, die ich eingebe",
  byClass: "eine Klasse der IEC 60751",
  other: "eine Festlegung des Modells",
  class: "Klasse",
  choose: "wählen…",
  temperature: "Bei der Temperatur, °C",
  temperatureHelp: "Der Punkt, an dem die Klasse beurteilt wird; ihre Grenzen dort stehen im Bericht",
  element: "Messelement",
  elementHelp: "Damit muss die Temperatur im Bereich der Klasse liegen",
  anyElement: "nicht angegeben",
  wire: "Draht",
  film: "Schicht",
  nominal: "Widerstand bei 0 °C, Ω",
  nominalHelp: "100, wenn leer",
  ranges:
    "Die Klassen sind die von Thermometern, in ihren Temperaturbereichen, wie Hersteller sie aus IEC 60751:2008 abdrucken. Prüfen Sie sie an der geltenden Ausgabe, bevor Sie sich darauf verlassen.",
  limitsAre: "Die Grenzen sind {from} bis {to} ({basis}).",
  ofThermometer: "{name}, eines Thermometers",
  ofWire: "{name}, eines gewickelten Elements",
  ofFilm: "{name}, eines Schichtelements",
  needsClass: "Wählen Sie eine Klasse.",
  needsTemperature: "Geben Sie die Temperatur ein, bei der die Klasse beurteilt wird.",
  of: "{label} von {name}",
};

import type { LaterWords } from "../words.ts";

/** The field for an equation, in German. */
export const equationWords: LaterWords["equation"] = {
  fits: {
    one: "{n} Name passt; Pfeiltasten wählen, Eingabe übernimmt.",
    other: "{n} Namen passen; Pfeiltasten wählen, Eingabe übernimmt.",
  },
  notChecked: "Die Gleichung lässt sich nicht prüfen. {why}",
  noFunctions: "Die Liste der Funktionen lässt sich nicht zeigen. {why}",
  equation: "Gleichung",
  algebra: "In gewöhnlicher Algebra, etwa ",
  algebraRest:
    "; eine Gleichung je Zeile. Eine Größe, die eine Zeile festlegt, darf in den nächsten stehen. Namen werden beim Tippen angeboten; Strg und Leertaste zeigen alle.",
  save: "Als TypeScript-Modell speichern",
  saveNote: "Dasselbe Modell als Datei, für ein Programm oder eine andere Studie: dieselben Werte, bis aufs Bit.",
  unitsFit: "Die Einheiten passen: Glieder, Funktionen und Ergebnisse stimmen in der Dimension überein.",
  unitsUnchecked: "Die Einheiten sind nicht geprüft, da keine angegeben ist.",
  unitsPartly: "Die Einheiten passen, soweit sie angegeben sind; keine ist angegeben für {names}.",
  functions: "Funktionen, Operatoren und Konstanten",
  sums: "Summen, Produkte und Quotienten; + - * / der Tastatur gelten ebenso",
  powers: "Potenzen, die vor einem Vorzeichen binden: −a² ist −(a²)",
  pi: "die Zahl π",
  names: "Namen, die passen",
  character: "Zeichen {n}",
  line: "Zeile {line}, {character}",
  at: "Bei {place}",
  expected: ": gefunden {got}; erwartet {expected}",
};

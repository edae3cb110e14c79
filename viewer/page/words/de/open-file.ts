import type { PageWords } from "../words.ts";

/** Files that are opened, in German. */
export const openFileWords: PageWords["openFile"] = {
  someLog: "die CSV- oder XLSX-Datei ihrer Aufzeichnung",
  notJson: "kein JSON ab Zeile {line}, Spalte {column}: {shown}",
  textEnds: "der Text endet",
  nothing: "nichts",
  accepted:
    "eine Studie oder ein Protokoll als JSON-Text, oder ein Budget als Tabelle (CSV, XLSX oder eingefügte Zellen)",
  several: "{n} Dateien auf einmal",
  oneFile: "eine Datei, oder die Beschreibung einer Vermessung (JSON) zusammen mit der Aufzeichnung, die sie nennt",
  descriptions: "{n} Beschreibungen von Vermessungen",
  oneAtATime: "jeweils eine, zusammen mit der Aufzeichnung, die sie nennt",
  bytes: "{n} Bytes",
  mostLog: "eine Aufzeichnung von höchstens {most} Bytes; die Befehlszeile nimmt längere: npx trialband survey {file}",
  logOf: "{file}: Aufzeichnung",
  noLog: "keine mit ihr geöffnete Aufzeichnung",
  logBeside: "{log}, zusammen mit der Beschreibung ausgewählt oder abgelegt",
  most: "eine Datei von höchstens {most} Bytes",
  aStudy: "eine Studie: ein Objekt mit Titel (title), Modell (model) und Eingangsgrößen (inputs)",
  format: "{file}: format",
  formats: "trialband-record/ und eine Zahl für ein Protokoll; nichts für eine Studie",
  model: "{file}: model",
  modelId: "der Name eines Modells, als Text",
  inputs: "{file}: inputs",
  someInputs: "ein Objekt mit einer Verteilung für jede Eingangsgröße",
  list: "eine Liste von {n}",
  empty: "eine leere Datei",
};

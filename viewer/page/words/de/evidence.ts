import type { LaterWords } from "../words.ts";

export const evidenceWords: LaterWords["evidence"] = {
  found: "Gefunden: {value}; zulässig: {accepted}",
  foundAt: "{place}: gefunden {value}; zulässig: {accepted}",
  complete: "Alles Nötige ist da.",
  missing: "Es fehlt noch:",
  more: "und {count} weitere.",
  draftKept: "Entwurf aufbewahrt.",
  keeping: "Entwurf wird aufbewahrt …",
  keptHere: "Entwurf nur in diesem Browser aufbewahrt: {reason}",
  ofOne: "{what} von {name}",
  saved: "Fassung {number} gespeichert.",
  version: "Fassung {number}: {title}",
  versions: { survey: "Bereits ausgewertet", other: "Aufbewahrte Fassungen" },
  asFile: "Beschreibung als Datei",
  print: "Drucken",
  removed: "„{title}“ wurde entfernt.",
  undo: "Zurückholen",
  remove: {
    survey: "Diese Vermessung entfernen",
    readings: "Diese Ablesungen entfernen",
    immersion: "Diese Prüfung entfernen",
    certificate: "Diesen Kalibrierschein entfernen",
  },
};

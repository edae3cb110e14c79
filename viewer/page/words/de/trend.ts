import type { LaterWords } from "../words.ts";

/** The versions of a study over time, in German. */
export const trendWords: LaterWords["trend"] = {
  open: "Verlauf der Fassungen: Ergebnis, Messunsicherheit und k über der Zeit",
  reading: "Die Protokolle werden gelesen…",
  failed: "Die Protokolle konnten nicht gelesen werden: {why}",
  none: "Es gibt kein Protokoll zu zeichnen.",
  source: "Der letzte Lauf jeder Fassung, nach dem Tag des Laufs.",
  lines:
    "Linien: Mittel der Werte und Eingriffsgrenzen beiderseits im dreifachen Abstand der mittleren gleitenden Spannweite durch 1,128 (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). Ein Wert außerhalb verlangt eine Begründung; er ist kein Urteil.",
  leftOut: "Protokolle mit anderer Messgröße oder Einheit sind weggelassen: {count}.",
  name: "{what} von {count} Fassungen über der Zeit.",
  estimate: "Schätzwert {y}{unit}, mit ± U",
  uncertainty: "Standardunsicherheit {u}({y}){unit}",
  factor: "Erweiterungsfaktor {k}",
  tooFew: "Eingriffsgrenzen werden ab {fewest} Fassungen gezeichnet; es sind {count}.",
  allWithin: "Alle {count} liegen innerhalb der Eingriffsgrenzen.",
  outside: "{outside} von {count} liegen außerhalb der Eingriffsgrenzen (große Ringe).",
};

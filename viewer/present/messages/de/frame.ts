import type { Messages } from "../messages.ts";

/** German words: the parts that frame everything: numbers, heads, sections. */
export const frameWords: Pick<
  Messages,
  | "language"
  | "decimalSign"
  | "separator"
  | "to"
  | "none"
  | "notApplicable"
  | "figure"
  | "table"
  | "and"
  | "page"
  | "pageOf"
  | "head"
  | "sections"
  | "verdicts"
  | "panels"
> = {
  language: "de",
  decimalSign: ",",
  separator: "; ",
  to: " bis ",
  none: "nicht vorhanden",
  notApplicable: "–",
  figure: "Bild",
  table: "Tabelle",
  and: " und ",
  page: "Seite",
  pageOf: "von",
  head: {
    kind: "Bericht über die Ermittlung einer Messunsicherheit",
    laboratory: "Laboratorium",
    date: "Datum der Ermittlung",
    record: "Protokoll",
    program: "Programm",
    model: "Modell",
    undated: "nicht festgehalten",
  },
  sections: {
    result: "Zweck und Ergebnis",
    model: "Messgröße und Modell der Messung",
    inputs: "Eingangsgrößen und was über sie bekannt ist",
    budget: "Lineares Unsicherheitsbudget",
    monteCarlo: "Fortpflanzung der Verteilungen mit der Monte-Carlo-Methode",
    validation: "Validierung des linearen Budgets",
    linearised: "Linearisiertes Modell mit den angegebenen Verteilungen",
    secondOrder: "Glieder zweiter Ordnung",
    settling: "Anzahl der Versuche und Stabilität der Werte",
    sensitivity: "Empfindlichkeit ohne Annahme eines linearen Modells",
    conformity: "Konformität mit einer festgelegten Anforderung",
    sweep: "Über den Bereich",
    joint: "Die Messgrößen gemeinsam",
    calibrationCurve: "Die Kalibrierkurve",
    remarks: "Anmerkungen",
    cautions: "Sicher arbeiten",
    provenance: "Herkunft der Werte und Wiederholung der Ermittlung",
  },
  verdicts: {
    validated: "validiert",
    notValidated: "nicht validiert",
    undecided: "durch die Versuche nicht entschieden",
    nothingVaries: "nichts variiert",
  },
  panels: {
    soFar: ", bis jetzt",
    verdict: "Hält das lineare Budget?",
    distributions: "Was die Versuche zeigen und was das Budget sagt",
    conformity: "Ist die Anforderung erfüllt?",
    budget: "Woher die Unsicherheit kommt",
    sensitivity: "Was jede Eingangsgröße bewirkt, ohne eine Gerade anzunehmen",
    whatIf: "Was wäre, wenn?",
    figures: "Die Werte nebeneinander",
    settling: "Sind die Monte-Carlo-Werte stabil?",
    provenance: "Wie diese Werte entstanden sind und wie sie wiederholt werden",
  },
};

import type { Messages } from "../messages.ts";

/** Worte eines Vergleichs zwischen Laboratorien. */
export const equivalenceWords: Pick<Messages, "equivalence"> = {
  equivalence: {
    document: "Vergleich zwischen Laboratorien",
    quantity: "Messgröße",
    reference: "Referenzwert",
    weightedMean: "gewichtetes Mittel",
    randomEffects: "zufällige Effekte (Mandel–Paule)",
    subset: "größte konsistente Teilmenge",
    median: "Median",
    assigned: "zugewiesener Wert",
    kind: "Art",
    value: "Wert{unit}",
    uncertainty: "{u}{unit}",
    taken: "genommen",
    yes: "ja",
    no: "nein",
    between: "zwischen den Laboratorien{unit}",
    consistent:
      "Die {count} zählenden Ergebnisse sind konsistent: χ² = {chi}, {freedom} Freiheitsgrade, Wahrscheinlichkeit eines größeren {p}; Birge-Verhältnis {birge}.",
    inconsistent:
      "Die {count} zählenden Ergebnisse sind nicht konsistent: χ² = {chi}, {freedom} Freiheitsgrade, Wahrscheinlichkeit eines größeren {p}, unter {alpha}; Birge-Verhältnis {birge}. Ihre angegebenen Unsicherheiten erklären ihre Streuung nicht; das gewichtete Mittel ist daher kein Referenzwert.",
    subsetFound:
      "Die größte konsistente Teilmenge hat {count} von {all} Ergebnissen (χ² = {chi}, {freedom} Freiheitsgrade, Wahrscheinlichkeit eines größeren {p}). Nicht darin: {excluded}.",
    minority: "Das ist nicht mehr als die Hälfte; die Teilmenge ist daher kein Konsens.",
    noSubset:
      "Es wurde keine konsistente Teilmenge gefunden: Keine zwei Ergebnisse sind konsistent, oder korrelierte Ergebnisse haben mehr Teilmengen, als sich prüfen lassen.",
    medianFound:
      "Der Median und sein {u} stammen aus {trials} Versuchen mit den angegebenen Verteilungen. Die Differenzen von ihm sind nicht normalverteilt: Ist er der Referenzwert, hat jede ihr kürzestes 95-%-Intervall.",
    assignedTaken: "Der zugewiesene Wert ist die Referenz, was immer der Test sagt.",
    degrees: "Äquivalenzgrade D mit U(D), k = {k}",
    laboratory: "Laboratorium",
    result: "{x}{unit}",
    own: "{u}{unit}",
    difference: "{D}{unit}",
    expanded: "{UD}{unit}",
    normalised: "E_n",
    zeta: "ζ",
    verdict: "Urteil",
    passes: "innerhalb U(D)",
    fails: "außerhalb U(D)",
    interval: "95-%-Intervall von {D}{unit}",
    outside: "nicht im Referenzwert",
    correlated:
      "Ein Laboratorium im Referenzwert ist mit ihm korreliert: u²(D) ist u² weniger dem des Referenzwerts, nicht ihre Summe.",
    correlatedByEffects:
      "Die Streuung zwischen den Laboratorien ist Teil der Unsicherheit des Referenzwerts und dadurch von U(D). Der eigene Effekt eines Laboratoriums ist das, was D schätzt.",
    correlatedInSubset:
      "Ein Laboratorium in der Teilmenge ist mit dem Referenzwert korreliert: u²(D) ist u² weniger dem des Referenzwerts. Für eines außerhalb ist es ihre Summe.",
    correlatedByTrials:
      "D und U(D) stammen aus denselben Versuchen wie der Median; ihre Korrelation ist darin enthalten.",
  },
};

import type { Messages } from "../messages.ts";

/** Worte eines Vergleichs zwischen Laboratorien. */
export const equivalenceWords: Pick<Messages, "equivalence"> = {
  equivalence: {
    reference: "Referenzwert",
    weightedMean: "gewichtetes Mittel",
    randomEffects: "zufällige Effekte (Mandel–Paule)",
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
    outside: "nicht im Referenzwert",
    correlated:
      "Ein Laboratorium im Referenzwert ist mit ihm korreliert: u²(D) ist u² weniger dem des Referenzwerts, nicht ihre Summe.",
  },
};

import type { Word } from "./word.ts";

/** Words of the Monte Carlo method and of the comparison. Terms as JCGM 101:2008 prints them. */
export const trialWords: readonly Word[] = [
  {
    id: "coverage-interval",
    symbol: null,
    en: {
      term: "coverage interval",
      meaning: "An interval that contains the value of the measurand with a stated probability.",
    },
    de: {
      term: "Überdeckungsintervall",
      meaning: "Ein Intervall, das den Wert der Messgröße mit einer angegebenen Wahrscheinlichkeit enthält.",
    },
    sources: ["JCGM 101:2008, 3.12", "JCGM 200:2012, 2.36"],
  },
  {
    id: "coverage-probability",
    symbol: "p",
    en: {
      term: "coverage probability",
      meaning: "The probability that the value of the measurand lies in the coverage interval; usually 95 %.",
    },
    de: {
      term: "Überdeckungswahrscheinlichkeit",
      meaning: "Die Wahrscheinlichkeit, dass der Wert der Messgröße im Überdeckungsintervall liegt; meist 95 %.",
    },
    sources: ["JCGM 101:2008, 3.13", "JCGM 200:2012, 2.37"],
  },
  {
    id: "endpoint",
    symbol: null,
    en: {
      term: "endpoint",
      meaning: "The lower or the upper end of a coverage interval. The verdict compares the endpoints of both methods.",
    },
    de: {
      term: "Endpunkt",
      meaning:
        "Das untere oder das obere Ende eines Überdeckungsintervalls. Das Urteil vergleicht die Endpunkte beider Verfahren.",
    },
    sources: ["JCGM 101:2008, 7.7 and 8.1"],
  },
  {
    id: "interval-kind",
    symbol: null,
    en: {
      term: "probabilistically symmetric, shortest",
      meaning:
        "Of the intervals with one coverage probability, the first leaves the same probability beyond either endpoint, the second has the least length. For a symmetric distribution with one peak they are the same.",
    },
    de: {
      term: "wahrscheinlichkeitssymmetrisch, kürzestes",
      meaning:
        "Von den Intervallen mit einer Überdeckungswahrscheinlichkeit lässt das erste auf beiden Seiten gleich viel Wahrscheinlichkeit außerhalb, das zweite hat die kleinste Länge. Bei einer symmetrischen Verteilung mit einem Gipfel sind beide gleich.",
    },
    sources: ["JCGM 101:2008, 3.15 and 3.16"],
  },
  {
    id: "distribution",
    symbol: null,
    en: {
      term: "probability distribution",
      meaning:
        "What is known of a quantity: how probable each of its values is. Every input quantity of a study has one.",
    },
    de: {
      term: "Wahrscheinlichkeitsverteilung",
      meaning:
        "Was über eine Größe bekannt ist: wie wahrscheinlich jeder ihrer Werte ist. Jede Eingangsgröße einer Studie hat eine.",
    },
    sources: ["JCGM 101:2008, 3.1"],
  },
  {
    id: "propagation",
    symbol: null,
    en: {
      term: "propagation of distributions",
      meaning:
        "Finding the distribution of the result from the distributions of the input quantities; here by the Monte Carlo method, with nothing taken as straight or normal.",
    },
    de: {
      term: "Fortpflanzung von Verteilungen",
      meaning:
        "Die Verteilung des Ergebnisses aus den Verteilungen der Eingangsgrößen bestimmen; hier nach der Monte-Carlo-Methode, ohne etwas als gerade oder normalverteilt anzunehmen.",
    },
    sources: ["JCGM 101:2008, 3.17 and 3.19"],
  },
  {
    id: "trial",
    symbol: "M",
    en: {
      term: "trial",
      meaning:
        "One draw of every input quantity from its distribution, and the result the model gives for it. M is their number.",
    },
    de: {
      term: "Versuch",
      meaning:
        "Einmal jede Eingangsgröße aus ihrer Verteilung gezogen, und das Ergebnis des Modells dazu. M ist ihre Anzahl.",
    },
    sources: ["JCGM 101:2008, 7.2"],
  },
  {
    id: "stabilised",
    symbol: null,
    en: {
      term: "stabilised",
      meaning:
        "A figure has stabilised when further trials would move it by less than a fifth of δ. An adaptive run draws until every figure has.",
    },
    de: {
      term: "stabil",
      meaning:
        "Ein Wert ist stabil, wenn weitere Versuche ihn um weniger als ein Fünftel von δ verschöben. Ein adaptiver Lauf zieht, bis alle Werte stabil sind.",
    },
    sources: ["JCGM 101:2008, 7.9.4 and 8.2"],
  },
  {
    id: "numerical-tolerance",
    symbol: "δ",
    en: {
      term: "numerical tolerance",
      meaning:
        "Half a step of the last digit of u(y) that is held meaningful: with u(y) = 0.16 °C to two digits, δ = 0.005 °C. Endpoints of both methods may differ by δ and no more.",
    },
    de: {
      term: "numerische Toleranz",
      meaning:
        "Ein halber Schritt der letzten Stelle von u(y), die als bedeutsam gilt: mit u(y) = 0,16 °C auf zwei Stellen ist δ = 0,005 °C. Um δ dürfen sich die Endpunkte beider Verfahren unterscheiden, um mehr nicht.",
    },
    sources: ["JCGM 101:2008, 3.20 and 7.9.2"],
  },
  {
    id: "d-low",
    symbol: "d_low",
    en: {
      term: "d_low, d_high",
      meaning:
        "How far the lower and the upper endpoints of the two methods lie apart. The linear budget is validated if neither exceeds δ.",
    },
    de: {
      term: "d_low, d_high",
      meaning:
        "Wie weit die unteren und die oberen Endpunkte der beiden Verfahren auseinanderliegen. Das lineare Budget ist validiert, wenn keiner der beiden δ übersteigt.",
    },
    sources: ["JCGM 101:2008, 8.1"],
  },
  {
    id: "standard-error",
    symbol: null,
    en: {
      term: "standard error",
      meaning: "How far a Monte Carlo figure would scatter if the same study were run again with other seeds.",
    },
    de: {
      term: "Standardfehler",
      meaning: "Wie weit ein Monte-Carlo-Wert streute, würde dieselbe Studie mit anderen Startwerten wiederholt.",
    },
    sources: ["JCGM 101:2008, 7.9.4"],
  },
  {
    id: "curvature",
    symbol: null,
    en: {
      term: "non-linearity",
      meaning:
        "The model bends over the range of its input quantities, so that a straight line through the estimates does not say what the result does. One of the reasons why a budget is not validated.",
    },
    de: {
      term: "Nichtlinearität",
      meaning:
        "Das Modell krümmt sich im Bereich seiner Eingangsgrößen, sodass eine Gerade durch die Schätzwerte nicht sagt, was das Ergebnis tut. Einer der Gründe, warum ein Budget nicht validiert ist.",
    },
    sources: ["JCGM 100:2008, 5.1.2, note"],
  },
  {
    id: "conformity",
    symbol: "p_c",
    en: {
      term: "conformance probability",
      meaning: "The probability that the value of the measurand lies within the tolerance.",
    },
    de: {
      term: "Konformitätswahrscheinlichkeit",
      meaning: "Die Wahrscheinlichkeit, dass der Wert der Messgröße innerhalb der Toleranz liegt.",
    },
    sources: ["JCGM 106:2012, 3.3.7"],
  },
];

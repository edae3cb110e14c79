import type { Word } from "./word.ts";

/** Words of the linear budget. Terms as JCGM 100:2008 and the VIM (JCGM 200:2012) print them. */
export const uncertaintyWords: readonly Word[] = [
  {
    id: "measurand",
    symbol: null,
    en: { term: "measurand", meaning: "The quantity that is to be measured." },
    de: { term: "Messgröße", meaning: "Die Größe, die gemessen werden soll." },
    sources: ["JCGM 200:2012, 2.3"],
  },
  {
    id: "model",
    symbol: "f",
    en: {
      term: "measurement model",
      meaning:
        "The relation between the measurand and every quantity that it depends on, usually an equation y = f(x₁, x₂, …).",
    },
    de: {
      term: "Modell der Messung",
      meaning:
        "Der Zusammenhang zwischen der Messgröße und allen Größen, von denen sie abhängt, meist eine Gleichung y = f(x₁, x₂, …).",
    },
    sources: ["JCGM 200:2012, 2.48"],
  },
  {
    id: "input-quantity",
    symbol: "x_i",
    en: {
      term: "input quantity",
      meaning:
        "A quantity that the measurand is computed from: an indication, a correction, an influence. One row of the budget.",
    },
    de: {
      term: "Eingangsgröße",
      meaning:
        "Eine Größe, aus der die Messgröße berechnet wird: eine Anzeige, eine Korrektion, ein Einfluss. Eine Zeile des Budgets.",
    },
    sources: ["JCGM 200:2012, 2.50"],
  },
  {
    id: "estimate",
    symbol: "x",
    en: { term: "estimate", meaning: "The value taken for a quantity: the centre of what is known of it." },
    de: {
      term: "Schätzwert",
      meaning: "Der Wert, der für eine Größe angenommen wird: die Mitte dessen, was bekannt ist.",
    },
    sources: ["JCGM 100:2008, 4.1.4"],
  },
  {
    id: "standard-uncertainty",
    symbol: "u",
    en: { term: "standard uncertainty", meaning: "An uncertainty stated as a standard deviation." },
    de: { term: "Standardunsicherheit", meaning: "Eine Unsicherheit, als Standardabweichung angegeben." },
    sources: ["JCGM 100:2008, 2.3.1", "JCGM 200:2012, 2.30"],
  },
  {
    id: "type-a",
    symbol: null,
    en: {
      term: "Type A evaluation, Type B evaluation",
      meaning:
        "Type A: a standard uncertainty from the scatter of repeated observations. Type B: from anything else, such as a certificate, limits or experience.",
    },
    de: {
      term: "Ermittlungsmethode A, Ermittlungsmethode B",
      meaning:
        "A: eine Standardunsicherheit aus der Streuung wiederholter Beobachtungen. B: aus allem anderen, etwa einem Kalibrierschein, Grenzen oder Erfahrung.",
    },
    sources: ["JCGM 100:2008, 2.3.2 and 2.3.3", "JCGM 200:2012, 2.28 and 2.29"],
  },
  {
    id: "half-width",
    symbol: "a",
    en: {
      term: "half-width",
      meaning:
        "Half the distance between the limits of a quantity. With a rectangular distribution between them, u = a/√3.",
    },
    de: {
      term: "Halbweite",
      meaning: "Der halbe Abstand der Grenzen einer Größe. Mit einer Rechteckverteilung dazwischen ist u = a/√3.",
    },
    sources: ["JCGM 100:2008, 4.3.7"],
  },
  {
    id: "sensitivity-coefficient",
    symbol: "c_i",
    en: {
      term: "sensitivity coefficient",
      meaning: "How much the result changes for a small change of one input quantity: ∂f/∂x at the estimates.",
    },
    de: {
      term: "Empfindlichkeitskoeffizient",
      meaning:
        "Um wie viel sich das Ergebnis bei einer kleinen Änderung einer Eingangsgröße ändert: ∂f/∂x an den Schätzwerten.",
    },
    sources: ["JCGM 100:2008, 5.1.3"],
  },
  {
    id: "linear-budget",
    symbol: null,
    en: {
      term: "linear budget",
      meaning:
        "The uncertainty budget by the law of propagation of uncertainty: each standard uncertainty times its sensitivity coefficient, combined as the root of the sum of squares with the correlations. It takes the model as straight and the result as normal or as a t-distribution.",
    },
    de: {
      term: "lineares Budget",
      meaning:
        "Das Messunsicherheitsbudget nach dem Unsicherheitsfortpflanzungsgesetz: jede Standardunsicherheit mal ihrem Empfindlichkeitskoeffizienten, zusammengefasst als Wurzel der Quadratsumme mit den Korrelationen. Es nimmt das Modell als gerade und das Ergebnis als normal- oder t-verteilt an.",
    },
    sources: ["JCGM 100:2008, 5.1 and 5.2", "JCGM 101:2008, 3.18", "JCGM 200:2012, 2.33"],
  },
  {
    id: "combined-standard-uncertainty",
    symbol: "u(y)",
    en: {
      term: "combined standard uncertainty",
      meaning: "The standard uncertainty of the result, combined from those of the input quantities.",
    },
    de: {
      term: "kombinierte Standardunsicherheit",
      meaning: "Die Standardunsicherheit des Ergebnisses, zusammengefasst aus denen der Eingangsgrößen.",
    },
    sources: ["JCGM 100:2008, 2.3.4", "JCGM 200:2012, 2.31"],
  },
  {
    id: "expanded-uncertainty",
    symbol: "U",
    en: {
      term: "expanded uncertainty",
      meaning: "U = k·u(y): half the length of the interval that the linear budget states about the estimate.",
    },
    de: {
      term: "erweiterte Messunsicherheit",
      meaning: "U = k·u(y): die halbe Länge des Intervalls, das das lineare Budget um den Schätzwert angibt.",
    },
    sources: ["JCGM 100:2008, 2.3.5", "JCGM 200:2012, 2.35"],
  },
  {
    id: "coverage-factor",
    symbol: "k",
    en: {
      term: "coverage factor",
      meaning:
        "The number that u(y) is multiplied by to get U. It follows from p and ν_eff, or is fixed by custom, such as k = 2.",
    },
    de: {
      term: "Erweiterungsfaktor",
      meaning:
        "Die Zahl, mit der u(y) multipliziert wird, um U zu erhalten. Er folgt aus p und ν_eff oder ist durch Übung festgelegt, etwa k = 2.",
    },
    sources: ["JCGM 100:2008, 2.3.6", "JCGM 200:2012, 2.38"],
  },
  {
    id: "degrees-of-freedom",
    symbol: "ν",
    en: {
      term: "degrees of freedom",
      meaning:
        "How well a standard uncertainty is itself known: n − 1 for the mean of n readings; ∞ if it is taken as exactly known.",
    },
    de: {
      term: "Freiheitsgrade",
      meaning:
        "Wie gut eine Standardunsicherheit selbst bekannt ist: n − 1 für das Mittel aus n Werten; ∞, wenn sie als genau bekannt gilt.",
    },
    sources: ["JCGM 100:2008, G.3.3 and G.4.2"],
  },
  {
    id: "effective-degrees-of-freedom",
    symbol: "ν_eff",
    en: {
      term: "effective degrees of freedom",
      meaning:
        "The degrees of freedom of u(y), combined from those of the input quantities by the Welch–Satterthwaite formula. They decide k for a given p.",
    },
    de: {
      term: "effektive Freiheitsgrade",
      meaning:
        "Die Freiheitsgrade von u(y), nach der Formel von Welch und Satterthwaite aus denen der Eingangsgrößen zusammengefasst. Sie bestimmen k zu einem gegebenen p.",
    },
    sources: ["JCGM 100:2008, G.4.1, equation G.2b"],
  },
  {
    id: "correlation",
    symbol: "r",
    en: {
      term: "correlation coefficient",
      meaning: "How far two input quantities err together: from −1 over 0 (independent) to 1.",
    },
    de: {
      term: "Korrelationskoeffizient",
      meaning: "Wie weit sich zwei Eingangsgrößen gemeinsam irren: von −1 über 0 (unabhängig) bis 1.",
    },
    sources: ["JCGM 100:2008, 5.2.2"],
  },
];

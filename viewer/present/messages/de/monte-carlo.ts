import type { Messages } from "../messages.ts";

/** German words: the trials, their stability and the sensitivity indices. */
export const monteCarloWords: Pick<Messages, "monteCarlo" | "settling" | "sensitivity"> = {
  monteCarlo: {
    intro:
      "Die Verteilungen der Eingangsgrößen wurden mit {trials} Versuchen durch das Modell fortgepflanzt (JCGM\u00a0101:2008, Abschnitte 6 und 7). Die Standardfehler sagen, wie weit jeder Wert streute, wenn neu gezogen würde.",
    caption:
      "Ergebnisse beider Verfahren für {y} bei einer Überdeckung von {p}; das Budget wird mit dem Intervall der Art „{kind}“ verglichen",
    figure: "Wert",
    linear: "Lineares Budget",
    monteCarlo: "Monte Carlo",
    standardError: "Standardfehler",
    estimate: "Schätzwert {y}",
    uncertainty: "Standardunsicherheit {u}({y})",
    half: "Halbe Länge des Intervalls",
    low: "Unterer Endpunkt",
    high: "Oberer Endpunkt",
    least: "Kleinster Versuch",
    greatest: "Größter Versuch",
    withoutUnit: "Ohne Einheit",
    factor: "Erweiterungsfaktor {k}: halbe Länge durch die lineare Standardunsicherheit",
    freedom: "Effektive Freiheitsgrade {nu}",
    skewness: "Schiefe",
    kurtosis: "Exzess",
    pictureCaption:
      "Dichte von {y}: Versuche (grau, durchgezogener Umriss) und die Dichte, für die das lineare Budget steht (gestrichelt). Darunter beide {p}-Überdeckungsintervalle mit den Differenzen ihrer Endpunkte.",
    outside: " {count} der Versuche liegen außerhalb des Bildes.",
    pictureName:
      "Dichte von {y} nach Monte Carlo und nach dem linearen Budget; lineares Intervall {linear}, Monte-Carlo-Intervall {monteCarlo} {unit}.",
    laneLinear: "lineares Budget",
    laneMonteCarlo: "Monte Carlo, {kind}",
    density: "Wahrscheinlichkeitsdichte",
  },
  settling: {
    fixed: "Die Studie verlangte {trials} Versuche; damit endete der Lauf.",
    settled:
      "Der Lauf war adaptiv und endete nach {trials} Versuchen, als alle Werte stabil waren (JCGM\u00a0101:2008, 7.9.4).",
    limit:
      "Der Lauf war adaptiv und endete bei der größten Anzahl, die die Studie zulässt, {trials} Versuchen, bevor alle Werte stabil waren.",
    rule: "Ein Wert ist stabil, wenn die doppelte Standardabweichung seines Mittels über Folgen von {batch} Versuchen, 2\u00a0{s}, höchstens {delta}/5 ist (JCGM\u00a0101:2008, 7.9.4 mit 8.2).",
    caption: "Stabilität der Werte von {y}",
    figure: "Wert",
    average: "Mittel",
    doubled: "2\u00a0{s}",
    limitHead: "{delta}/5",
    verdict: "Stabil",
    yes: "ja",
    no: "nein",
    estimate: "Schätzwert",
    standardUncertainty: "Standardunsicherheit",
    low: "Unterer Endpunkt",
    high: "Oberer Endpunkt",
    pictureCaption:
      "Mittel jedes Wertes von {y} über die bisherigen Folgen, abzüglich des letzten, gegen die Anzahl der Versuche; Band: ± 2\u00a0{s}; gepunktet: ± {delta}/5. Alle haben einen Maßstab, in {unit}.",
    pictureName: "{figure}: Verlauf des Mittels über {trials} Versuche",
    trials: "{trials} Versuche",
  },
  sensitivity: {
    caption:
      "Anteil der Eingangsgrößen an {u}²({y}): im linearen Budget und nach varianzbasierten Indizes mit ihren {confidence}-Intervallen",
    factor: "Größe",
    linear: "Linearer Anteil",
    firstOrder: "Index erster Ordnung {S}",
    total: "Gesamtindex {T}",
    alone: "{u} allein{unit}",
    drawnTogether: "gemeinsam gezogen",
    interaction: "nur im Zusammenwirken",
    pictureCaption:
      "Balken: die Indizes mit ihren {confidence}-Intervallen, auf einer Skala von 0 bis 1; offener Kreis: linearer Anteil an {u}²({y}).",
    pictureName: "{index} {value}, Intervall {interval}; linearer Anteil {linear}",
    firstOrderName: "Index erster Ordnung",
    totalName: "Gesamtindex",
    conditionalCaption:
      "{y} gegen die Eingangsgrößen mit dem größten Gesamtindex, während alle sich ändern: Mittel in gleich wahrscheinlichen Teilen der Eingangsgröße (Linie) und die mittleren 90\u00a0% (grau).",
    conditionalName: "{y} gegen {x}",
    absent: "Das Protokoll enthält keine Sensitivitätsanalyse dieser Messgröße.",
    meaning:
      "Erste Ordnung: der Anteil von u², der wegfiele, wäre diese Eingangsgröße bekannt. Gesamtindex: der Anteil, der bliebe, wären alle anderen bekannt.",
    estimators:
      "{trials} Versuche in jeder von zwei unabhängigen Ziehungen. Schätzer: erste Ordnung {firstOrder}; Gesamtindex {total}; Intervalle {interval}; Beiträge {contribution}.",
    oneAtATime: "Standardunsicherheit aus den Eingangsgrößen einzeln {alone}, aus allen gemeinsam {together}.",
  },
};

import type { Messages } from "../messages.ts";

/** German words: several measurands together, and a calibration curve. */
export const togetherWords: Pick<Messages, "joint" | "calibrationCurve" | "sweep" | "leftOut"> = {
  joint: {
    intro:
      "Die Messgrößen haben Eingangsgrößen gemeinsam, ihre Unsicherheiten sind daher nicht unabhängig (JCGM\u00a0102:2011). Eine Aussage über mehrere von ihnen zugleich braucht ihre Korrelation oder einen Überdeckungsbereich.",
    correlation: "Korrelationskoeffizienten der Messgrößen: lineares Budget und Monte Carlo",
    pair: "Messgrößen",
    factors: "Faktoren der {p}-Überdeckungsbereiche",
    region: "Bereich",
    normal: "Normalverteilung",
    ellipsoid: "Hyperellipsoid, {k} (JCGM\u00a0102:2011, 6.5.2, 7.7.2)",
    rectangle: "Hyperrechteck, {k} (JCGM\u00a0102:2011, 6.5.3, 7.7.3)",
    pairFactor: "Ellipse von {a} und {b} allein",
    noCovariance:
      "Die Versuche haben keine Kovarianz: Eine Eingangsgröße mit so wenigen Freiheitsgraden hat keine Varianz, also hat auch keine, was von ihr abhängt.",
    correlationBy: "Korrelation der Messgrößen",
    singular: "Es ist kein Hyperellipsoid angegeben: die Kovarianzmatrix ist singulär oder existiert nicht.",
    regions:
      "Kleinste Bereiche, die mindestens {p} enthalten, aus den in einem Gitter gezählten Versuchen (JCGM\u00a0102:2011, 7.7.4)",
    area: "Fläche",
    held: "Enthaltener Anteil",
    pictureCaption:
      "Paare von Messgrößen: einige hundert Versuche (Punkte), der kleinste Bereich, der {p} enthält (grau), und die Ellipse des linearen Budgets für {p} (gestrichelt).",
    pictureName: "{a} und {b}: Versuche, kleinster Überdeckungsbereich und Ellipse",
  },
  calibrationCurve: {
    intro:
      "Die Messgrößen sind die Parameter einer Kalibrierkurve: {y}, {meaning}, als Funktion von {x}. Ihre Unsicherheit an einer Stelle folgt aus dem linearen Budget ihres Wertes dort, das die Korrelation der Parameter enthält (JCGM\u00a0100:2008, H.3.4), und aus der Kurve, die jeder von {trials} Monte-Carlo-Versuchen ergibt. Jedes Intervall gilt an seiner Stelle für sich; es ist keine Aussage über die ganze Kurve zugleich.",
    pictureCaption:
      "Bänder der Überdeckung {p} um die Kurve, als Abweichung von ihr: Monte Carlo (grau) und lineares Budget (gestrichelt){observed}.",
    observed: "; Ringe: die Punkte, an die sie angepasst wurde",
    pictureName: "Bänder beider Verfahren um die Kalibrierkurve von {y}",
    caption: "Die Kalibrierkurve nach beiden Verfahren, mit {p}-Überdeckungsintervallen",
    linearUncertainty: "Lineares {u}{unit}",
    linearInterval: "Lineares Intervall",
    monteCarloUncertainty: "Monte-Carlo-{u}{unit}",
    monteCarloInterval: "Monte-Carlo-Intervall",
  },
  sweep: {
    intro: "Die Studie wiederholt die Ermittlung über einen Bereich: {quantity}.",
    all: "Das Budget ist an allen {count} Stellen validiert.",
    some: "Das Budget ist an {held} von {count} Stellen validiert.",
    notAt: "Nicht validiert ist es bei {places}.",
    openAt: "Die Versuche entscheiden es nicht bei {places}.",
    caption: "Ergebnisse beider Verfahren für {y} an jeder Stelle, bei einer Überdeckung von {p}",
    linearInterval: "Lineares Intervall",
    monteCarloInterval: "Monte-Carlo-Intervall",
    needed: "Nötiges {k}",
    budget: "Budget",
    part: "Teil",
    andOthers: "{places} und {count} weiteren",
    gridCaption:
      "Erweiterte Messunsicherheit {U} von {y} in {unit} nach dem linearen Budget; quer: {second}; * nicht validiert oder unentschieden",
    gridPictureName: "Erweiterte Messunsicherheit von {y} über {quantity}, eine Linie für jeden Wert von {second}",
    gridPictureCaption:
      "Erweiterte Messunsicherheit von {y} nach dem linearen Budget über {quantity}, eine Linie für jeden Wert von {second}.",
    pictureName: "Schätzwert und beide Intervalle von {y} gegen {quantity}",
    pictureCaption:
      "{y} an den Stellen des Bereichs: Monte Carlo (durchgezogen) und lineares Budget (gestrichelt) mit ihren {p}-Intervallen; dazwischen wurde nichts berechnet.",
  },
  leftOut: {
    title: "Weggelassene Eingangsgrößen",
    intro:
      "Das Modell hat weitere Eingangsgrößen, die eine Studie weglassen darf. Jede der folgenden wurde als null angenommen, mit dem Grund, den die Studie angibt.",
    caption: "Prüfliste der als null angenommenen Eingangsgrößen",
    quantity: "Größe",
    standing: "Stand",
    reason: "Grund",
    negligible: "als vernachlässigbar beurteilt",
    optional: "Wahlfreie Eingangsgrößen",
    optionalHelp:
      "Jede angeben oder sagen, warum sie wegbleibt. Was beides nicht hat, wird als null angenommen, und das Protokoll sagt es.",
    why: "Warum sie wegbleibt",
    whyHelp: "In einem Satz, wenn ihre Verteilung nicht angegeben ist",
    unexplained: "weggelassen, ohne Angabe eines Grundes",
  },
};

import type { Messages } from "../messages.ts";

/** German words: the pictures that are read step by step, and the comparison of two runs. */
export const figureWords: Pick<
  Messages,
  | "reading"
  | "distributionFigures"
  | "sweepPanel"
  | "jointPanel"
  | "explanationPanel"
  | "threeDensities"
  | "comparedRuns"
> = {
  reading: {
    hint: "Zum Ablesen auf das Bild zeigen oder es mit Tab erreichen und die Pfeiltasten verwenden.",
  },
  distributionFigures: {
    controls: "Wie das Bild gezeichnet wird",
    coverage: "Überdeckung",
    binCount: "Klassen",
    back: "Zurück zu dem, was die Studie angibt",
    picture: "Bild",
    density: "Dichte",
    distribution: "Verteilungsfunktion",
    quantiles: "Q-Q-Diagramm",
    part: "Teil",
    lower: "unterer Endpunkt",
    whole: "ganz",
    upper: "oberer Endpunkt",
    laneLinear: "linear  {interval}",
    laneMonteCarlo: "Monte Carlo  {interval}",
    laneShortest: "Monte Carlo, kürzestes  {interval}",
    noBin: "Keine Klasse liegt ganz in diesem Teil: bitte mehr Klassen wählen.",
    densityName:
      "Histogramm von {trials} Versuchen mit der Dichte des linearen Budgets. Lineares Intervall {linear}; Monte-Carlo-Intervall {monteCarlo}; Überdeckungswahrscheinlichkeit {p}.",
    readDensity: "Das Histogramm Klasse für Klasse ablesen",
    bin: "{range}: {count} Versuche, {share}; Dichte {density}",
    binBudget: "; Budget {density}",
    distributionName:
      "Verteilungsfunktion von {trials} Versuchen mit der des linearen Budgets. Lineares Intervall {linear}; Monte-Carlo-Intervall {monteCarlo}.",
    distributionAxis: "Wahrscheinlichkeit höchstens dieses Wertes",
    readDistribution: "Die Verteilungsfunktion Schritt für Schritt ablesen",
    atMost: "höchstens {value}: {trials} der Versuche; Budget {budget}",
    tooFewPoints: "Das Protokoll hat hier zu wenige Punkte der Verteilungsfunktion.",
    quantilesName:
      "Quantile der Versuche gegen die des linearen Budgets. Punkte auf der gestrichelten Geraden: beide Verfahren stimmen überein.",
    trialsQuantile: "Monte-Carlo-Quantil von {y}",
    budgetQuantile: "Quantil der Verteilung, die das Budget {y} gibt",
    readQuantiles: "Die Quantile Schritt für Schritt ablesen",
    rings: "Ringe: der Median und beide Endpunkte des Intervalls. {hint}",
    quantile: "{p} liegen unter {trials}; das Budget behauptet {budget}: Unterschied {difference}",
  },
  sweepPanel: {
    band: "Monte Carlo, {p}-Intervall an jeder Stelle",
    linear: "lineares Intervall",
    pictureName: "Schätzwert und beide Intervalle gegen {quantity}, von {from} bis {to}.",
    uncertainty: "Standardunsicherheit {u}",
    uncertaintyName: "Standardunsicherheit nach beiden Verfahren gegen {quantity}.",
    factor: "Erweiterungsfaktor {k}: der des Budgets und der nötige",
    factorName: "Erweiterungsfaktor des Budgets, und der, den das Monte-Carlo-Intervall brauchte, gegen {quantity}.",
  },
  jointPanel: {
    pair: "Paar",
    between: "{a} und {b}",
    trials: "kleinster Bereich und Ellipse der Versuche",
    trialsFactor: "kleinster Bereich und Ellipse der Versuche, {k} = {factor}",
    linear: "Ellipse des linearen Budgets, {k} = {factor}",
    pictureName: "{a} und {b} zusammen: kleinster Bereich der Versuche mit beiden Überdeckungsellipsen bei {p}.",
    region:
      "Der kleinste Bereich für {p} hat {cells} Zellen mit je mindestens {least} Versuchen; er enthält {held} der Versuche und bedeckt {area}. Punkte: {points} der Versuche.",
  },
  explanationPanel: {
    absent: "Das Protokoll enthält keine Erklärung zu dieser Messgröße.",
    walks:
      "Jeder Balken beginnt, wo der über ihm endete, vom linearen Endpunkt (gestrichelt, ± δ schraffiert) bis zum Monte-Carlo-Endpunkt. Beide Bilder haben einen Maßstab.",
  },
  threeDensities: {
    note: "Wo die Linie die Striche verlässt, wirken Formen und Freiheitsgrade; wo der gefüllte Umriss die Linie verlässt, ist das Modell gekrümmt.",
  },
  comparedRuns: {
    neither: "Keiner der beiden Läufe hat ein Ergebnis zum Vergleichen: {why}",
    without: "„{title}“ hat kein Ergebnis zum Vergleichen: {why}",
    goesOn: "er geht weiter. Bitte wiederkommen, wenn er beendet ist.",
    unfinished: "er wurde nicht beendet. Bitte von seinem Blatt aus neu laufen lassen und dann beide neu wählen.",
    bothRuns: "Beide Läufe: {name}",
    inputsOfBoth: "Eingangsgrößen beider Läufe",
    pictureName: "Dichten von {y} in beiden Läufen, übereinandergelegt, und das Intervall eines jeden.",
  },
};

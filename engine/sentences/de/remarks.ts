import type { RemarkFact } from "../../remarks/remark-facts.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { fixed, significant, wholePercent, list } = speech;

const JOINT: Readonly<Record<(RemarkFact & { kind: "drawnTogether" })["from"], string>> = {
  "multivariate normal": "einer mehrdimensionalen Normalverteilung",
  "multivariate t": "einer mehrdimensionalen t-Verteilung",
  "Gaussian copula": "einer Gauß-Copula",
};

export const remarks: MessageTable<RemarkFact> = {
  tDiffers: ({ symbols }) =>
    `Für ${list(symbols)} unterscheiden sich die Verfahren schon in der Definition: Das Budget verwendet die Standardunsicherheit mit ihren Freiheitsgraden (JCGM 100, 4.2), Monte Carlo zieht aus einer t-Verteilung, deren Standardabweichung um den Faktor √(ν/(ν − 2)) größer ist (JCGM 101, 6.4.9).`,
  noStandardDeviation: ({ symbols }) =>
    `${symbols.length === 1 ? "Die Verteilung" : "Die Verteilungen"} von ${list(symbols)} ${symbols.length === 1 ? "hat" : "haben"} keine Standardabweichung (ν ≤ 2); Monte Carlo gibt daher auch für das Ergebnis keine an. Das Überdeckungsintervall existiert und ist angegeben.`,
  drawnTogether: ({ symbols, from, correlations, degreesOfFreedom, stated }) =>
    `${list(symbols)} werden gemeinsam aus ${JOINT[from]}${degreesOfFreedom === null ? "" : ` mit ν = ${significant(degreesOfFreedom, 4)}`} gezogen; die Korrelation ihrer Werte ist ${correlations.map(({ between, coefficient }) => `r(${between.join("; ")}) = ${significant(coefficient, 4)}`).join("; ")}.${degreesOfFreedom === null || stated ? "" : " Sie haben ihre Streuung gemeinsam, wie gleichzeitige Ablesungen (JCGM 102, 5.3.2), und sind auch dann nicht unabhängig, wenn r gegen 0 geht. Für eigene Reihen geben Sie die Reihen der Korrelation als getrennt an (separate)."}`,
  autocorrelated: ({ symbol, count, lagOne, effective }) =>
    `Die ${significant(count, 12)} Ablesungen von ${symbol} folgen eng aufeinander: Ihre Autokorrelation beim Abstand 1 ist ${fixed(lagOne, 2)}; sie sind daher etwa ${significant(effective, 2)} unabhängige Ablesungen wert, und s/√n ist als Standardunsicherheit ihres Mittelwerts etwa um den Faktor ${significant(Math.sqrt(count / effective), 2)} zu klein (JCGM 100, 4.2.7).`,
  fewDegreesOfFreedom: ({ symbol, factor, degreesOfFreedom, covered, needed }) =>
    `Der feste Erweiterungsfaktor k = ${significant(factor, 12)} setzt mehr Freiheitsgrade voraus, als das Budget von ${symbol} hat: Bei ${significant(degreesOfFreedom, 3)} effektiven Freiheitsgraden überdeckt er ${fixed(100 * covered, 1)} %; k = ${fixed(needed, 2)} würde überdecken, was er verspricht (JCGM 100, G.6.4).`,
  notSmooth: ({ symbol, symbols }) =>
    `Am Schätzwert von ${list(symbols)} hat das Modell von ${symbol} einen Knick oder eine Stufe; sein Empfindlichkeitskoeffizient ist dort keine einzelne Zahl. Das lineare Budget beschreibt es nicht, und ein Budget zweiter Ordnung gibt es nicht. Verwenden Sie das Monte-Carlo-Intervall.`,
  dominant: ({ symbol, input, share, unit }) =>
    `${input} allein macht ${fixed(100 * share, 2)} % von u²(${symbol}) aus. Prüfen Sie, ob seine Werte in ${unit === "1" ? "der Einheit stehen, die das Modell erwartet" : `${unit} stehen`}.`,
  noFourthMoment: ({ symbols, results }) =>
    `${symbols.length === 1 ? "Die Verteilung" : "Die Verteilungen"} von ${list(symbols)} ${symbols.length === 1 ? "hat" : "haben"} kein viertes Moment (ν ≤ 4); ${results.length === 1 ? `das u(${results[0]})` : "die Standardunsicherheit"} der Monte-Carlo-Methode hat daher keine eigene Standardabweichung: ${results.length === 1 ? "Es" : "Sie"} wird langsam stabil, meist von unten, und das adaptive Verfahren wartet nicht darauf. Die Endpunkte sind davon nicht betroffen.`,
  heavyTail: ({ symbol, index, mean }) =>
    `Ein Ausläufer von ${symbol} fällt so langsam ab (etwa mit der Potenz ${significant(index, 2)}), dass ${mean ? `u(${symbol}) nicht` : `weder der Mittelwert noch u(${symbol})`} stabil wird, wie bei einer Verteilung, die ${mean ? "keines" : "keine"} hat: Die Monte-Carlo-Werte hängen von wenigen Versuchen ab und haben keine eigene Standardabweichung. Die Endpunkte existieren; anzugeben ist das Überdeckungsintervall.`,
  fewTrials: ({ trials, recommended, probability }) =>
    `${trials} Versuche sind weniger als die ${recommended}, also 10⁴/(1 − p), die für eine Überdeckungswahrscheinlichkeit von ${significant(100 * probability, 6)} % empfohlen sind (JCGM 101, 7.2.2); wie genau die Endpunkte bekannt sind, zeigen ihre Standardabweichungen.`,
  rounding: ({ symbol }) =>
    `Das letzte Bit der Zahlen doppelter Genauigkeit, mit denen ${symbol} berechnet wird, ist mehr als ein Zehntel von δ; das Ergebnis hängt daher von Rundungen ab. Die Größe ist als Abweichung von einem Nennwert anzugeben.`,
  sharesAbove: ({ symbol, sum, taken, between }) =>
    `Die Anteile an u²(${symbol}) ergeben zusammen ${wholePercent(sum)}, weil die Korrelation zwischen ${list(between.map(([a, b]) => `${a} und ${b}`))} ${wholePercent(taken)} davon wegnimmt: Ein Anteil über 100 % ist, was die Eingangsgröße ohne sie beitrüge.`,
  fixedFactor: ({ factor, probability }) =>
    `Das Budget verwendet den festen Erweiterungsfaktor k = ${significant(factor, 12)}; das Monte-Carlo-Intervall hat die Überdeckungswahrscheinlichkeit, die dieser Faktor für eine Normalverteilung ergibt, ${fixed(100 * probability, 2)} %.`,
  undefinedTrials: ({ count, drawn }) =>
    count === 0
      ? `Die Studie lässt Versuche aus, für die das Modell nicht definiert ist; von ${significant(drawn, 12)} gezogenen war es keiner.`
      : `${significant(count, 12)} von ${significant(drawn, 12)} gezogenen Versuchen, ${significant((100 * count) / drawn, 2)} %, wurden ausgelassen, da das Modell für sie nicht definiert ist. Das Monte-Carlo-Ergebnis gilt für die Eingangsgrößen unter der Bedingung, dass das Modell definiert ist. Der Unterschied zum linearen Budget wird nicht erklärt, und es gibt kein Band einer Kurve: Beide vergleichen Modelle Versuch für Versuch, und das lineare Modell ist auch dort definiert, wo dieses es nicht ist.`,
  noJointFigures: ({ symbols }) =>
    `Die Kovarianzen von ${list(symbols)} liegen außerhalb des Bereichs von Zahlen doppelter Genauigkeit; daher gibt es keine gemeinsamen Angaben. Geben Sie die Größen in Einheiten an, in denen ihre Werte näher bei 1 liegen.`,
  noSource: ({ symbols }) => `Für ${list(symbols)} ist keine Quelle angegeben.`,
  fitted: ({ symbol, unit, points, degreesOfFreedom, residualDeviation, largest, argument }) =>
    (residualDeviation === null
      ? `Die Kurve von ${symbol} hat so viele Parameter wie Punkte (${points}) und geht durch alle; sie zeigt daher nicht, wie gut ihre Form passt.`
      : `Die ${points} Punkte weichen mit s = ${significant(residualDeviation, 2)}${unitAfter(unit)} bei ${degreesOfFreedom} Freiheitsgraden von der Kurve von ${symbol} ab; die größte Abweichung entspricht ${significant(largest, 2)}${unitAfter(argument.unit)} in ${argument.symbol}.`) +
    " Was die Kurve zwischen ihren Punkten vom wahren Verlauf abweicht, steht nur dann im Budget, wenn eine Eingangsgröße es angibt.",
  engineBits: () =>
    "Das Modell verwendet Funktionen, deren letzte Bits sich zwischen JavaScript-Umgebungen unterscheiden; dieses Protokoll lässt sich daher nur mit derselben Version der Umgebung bis aufs Bit reproduzieren.",
  counted: ({ symbol, resolution, unit, timesSmaller }) =>
    `Die Versuche von ${symbol} wurden in Klassen gezählt und nicht behalten: Die Endpunkte des wahrscheinlichkeitssymmetrischen Intervalls sind auf ${significant(resolution, 2)}${unitAfter(unit)} bekannt; ${timesSmaller >= 1 ? `δ ist das ${significant(timesSmaller, 2)}-Fache davon` : `das ist das ${significant(1 / timesSmaller, 2)}-Fache von δ`}.`,
};

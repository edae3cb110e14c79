import type { RemarkFact } from "../../run/remark-facts.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { fixed, significant, list } = speech;

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
  drawnTogether: ({ symbols, from, correlations }) =>
    `${list(symbols)} werden gemeinsam aus ${JOINT[from]} gezogen; die Korrelation ihrer Werte ist ${correlations.map(({ between, coefficient }) => `r(${between.join("; ")}) = ${significant(coefficient, 4)}`).join("; ")}.`,
  fixedFactor: ({ factor, probability }) =>
    `Das Budget verwendet den festen Erweiterungsfaktor k = ${significant(factor, 12)}; das Monte-Carlo-Intervall hat die Überdeckungswahrscheinlichkeit, die dieser Faktor für eine Normalverteilung ergibt, ${fixed(100 * probability, 2)} %.`,
  noSource: ({ symbols }) => `Für ${list(symbols)} ist keine Quelle angegeben.`,
  engineBits: () =>
    "Das Modell verwendet Funktionen, deren letzte Bits sich zwischen JavaScript-Umgebungen unterscheiden; dieses Protokoll lässt sich daher nur mit derselben Version der Umgebung bis aufs Bit reproduzieren.",
  counted: ({ symbol, resolution, unit, timesSmaller }) =>
    `Die Versuche von ${symbol} wurden in Klassen gezählt und nicht behalten: Die Endpunkte des wahrscheinlichkeitssymmetrischen Intervalls sind auf ${significant(resolution, 2)}${unitAfter(unit)} bekannt; δ ist das ${significant(timesSmaller, 2)}-Fache davon.`,
};

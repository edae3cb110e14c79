import type { LinearisedFact } from "../../convolution/linearised-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { fixed, list, significant } = speech;

const have = (inputs: readonly string[]): string => (inputs.length === 1 ? "hat" : "haben");

export const linearised: MessageTable<LinearisedFact> = {
  factor: ({ symbol, factor, linearFactor, probability }) =>
    `Mit den angegebenen Verteilungen anstelle einer Normalverteilung braucht das linearisierte Modell k = ${fixed(factor, 2)}, damit ${symbol} ± k·u zu ${significant(100 * probability, 6)} % überdeckt (durch Faltung, ohne Versuche); das Budget nimmt k = ${fixed(linearFactor, 2)}.`,
  noFactor: ({ symbol }) =>
    `Das lineare Budget hat keine Unsicherheit von ${symbol}, die ein Faktor k vervielfachen könnte.`,
  decisive: ({ inputs, factor }) =>
    `Für dieses k zählt die Verteilung von ${list(inputs)} am meisten: Wäre sie normal mit derselben Standardunsicherheit, so wäre k = ${fixed(factor, 2)}.`,
  nothingVaries: () => "Im linearisierten Modell variiert nichts; es hat keine Verteilung.",
  noStandardDeviation: ({ inputs }) =>
    `Die Verteilung des linearisierten Modells wird nicht angegeben: ${list(inputs)} ${have(inputs)} keine Standardabweichung (t-Verteilung mit ν ≤ 2).`,
  copula: ({ inputs }) =>
    `Die Verteilung des linearisierten Modells wird nicht angegeben: ${list(inputs)} hängen voneinander ab und sind nicht gemeinsam normal- oder t-verteilt; die Verteilung ihrer Summe geben nur Versuche.`,
  accuracy: () =>
    "Die Verteilung des linearisierten Modells wird nicht angegeben: Ihre Endpunkte lassen sich nicht auf δ/1000 berechnen, weil die Überdeckungswahrscheinlichkeit zu nahe an 1 liegt oder die Ausläufer zu schwer sind.",
};

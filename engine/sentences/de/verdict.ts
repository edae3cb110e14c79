import type { Doubt } from "../../record/validation.ts";
import type { VerdictFact } from "../../validation/verdict-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { figure, fixed, significant, percent, list } = speech;

const digits = (symbol: string, count: number): string =>
  `${count} signifikante Stelle${count === 1 ? "" : "n"} von u(${symbol})`;

export const verdict: MessageTable<VerdictFact> = {
  nothingVaries: () =>
    "Nichts variiert: Weder das lineare Budget noch die Versuche ergeben eine Unsicherheit; es gibt nichts zu validieren.",
  noLinearUncertainty: ({ because }) =>
    `Das lineare Budget ergibt keine Unsicherheit, weil ${because === "coefficients" ? "alle Empfindlichkeitskoeffizienten an den Schätzwerten verschwinden" : "sich korrelierte Beiträge aufheben"}. Es ist nicht validiert; zu verwenden ist das Monte-Carlo-Intervall.`,
  undecided: ({ symbol, significantDigits, difference, tolerance, doubts, standardError }) =>
    `Die Versuche entscheiden nicht, ob das lineare Budget auf ${digits(symbol, significantDigits)} validiert ist: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens ${figure(difference)} ab, die numerische Toleranz ist δ = ${figure(tolerance)}, und ${list(doubts.map((doubt) => DOUBTS[doubt](standardError === null ? "" : figure(standardError))))}.`,
  validated: ({ symbol, significantDigits, difference, tolerance }) =>
    `Das lineare Budget ist auf ${digits(symbol, significantDigits)} validiert: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens ${figure(difference)} ab, was innerhalb der numerischen Toleranz δ = ${figure(tolerance)} liegt.`,
  notValidated: ({ symbol, significantDigits, difference, tolerance }) =>
    `Das lineare Budget ist auf ${digits(symbol, significantDigits)} nicht validiert: Ein Endpunkt seines Überdeckungsintervalls weicht von dem der Monte-Carlo-Methode um ${figure(difference)} ab, mehr als die numerische Toleranz δ = ${figure(tolerance)}.`,
  displaced: ({ direction, width }) =>
    width === null
      ? `Die beiden Intervalle sind auf 1 % gleich breit, das Monte-Carlo-Intervall liegt aber an beiden Endpunkten ${side(direction)}.`
      : `Das Monte-Carlo-Intervall liegt an beiden Endpunkten ${side(direction)}, und das lineare Intervall ist ${wide(width)}.`,
  unplaced: () => "In welche Richtung seine Endpunkte abweichen, zeigen die Versuche für sich allein nicht.",
  oneEndpoint: ({ endpoint, direction }) =>
    `Der ${endpoint === "lower" ? "untere" : "obere"} Endpunkt der Monte-Carlo-Methode liegt weiter ${direction === "out" ? "außen" : "innen"} als der lineare; die anderen Endpunkte stimmen innerhalb der Streuung der Versuche überein.`,
  tooWide: (width) => `Das lineare Intervall ist ${wide(width)}${off(width.offCentre)}.`,
  tooNarrow: (width) => `Das lineare Intervall ist ${wide(width)}${off(width.offCentre)}.`,
  factorNeeded: ({ factor }) =>
    `Mit dem Erweiterungsfaktor k = ${fixed(factor, 2)} wäre es so breit wie das Monte-Carlo-Intervall.`,
  validatedAt: ({ symbol, significantDigits }) => `Auf ${digits(symbol, significantDigits)} ist es validiert.`,
  firmUnsettled: () => "Die Monte-Carlo-Werte sind noch nicht auf δ/5 stabil; das Urteil hängt davon aber nicht ab.",
};

const DOUBTS: Readonly<Record<Doubt, (standardError: string) => string>> = {
  scatter: (standardError) =>
    `die Streuung des Monte-Carlo-Endpunkts (Standardabweichung ${standardError}) lässt beides zu`,
  scatterUnknown: () => "die Streuung der Monte-Carlo-Endpunkte ist aus so wenigen Serien nicht bekannt",
  fewTrials: () => "jenseits jedes Endpunkts liegen weniger als 50 Versuche",
  rounding: () => "das letzte Bit der Zahlen, mit denen gerechnet wird, ist mehr als ein Zehntel von δ",
};

/** A part in per cent, with two significant digits where it is small. */
const part = (fraction: number): string =>
  fraction < 0.001 ? `${significant(100 * fraction, 2)} %` : percent(fraction);

type Width = VerdictFact & { readonly kind: "tooWide" | "tooNarrow" };

const wide = ({ kind, fraction }: Width): string =>
  `um ${part(fraction)} ${kind === "tooWide" ? "breiter als nötig" : "zu schmal"}`;

const side = (direction: "higher" | "lower"): string => (direction === "higher" ? "höher" : "tiefer");

const off = (offCentre: boolean): string =>
  offCentre ? ", und das Monte-Carlo-Intervall liegt nicht symmetrisch zum Schätzwert" : "";

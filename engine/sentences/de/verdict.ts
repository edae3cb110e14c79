import type { Doubt } from "../../record/validation.ts";
import type { VerdictFact } from "../../validation/verdict-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { figure, fixed, significant, percent, list } = speech;

const digits = (count: number): string => `${count} signifikante Stelle${count === 1 ? "" : "n"} von u(y)`;

export const verdict: MessageTable<VerdictFact> = {
  nothingVaries: () =>
    "Nichts variiert: Weder das lineare Budget noch die Versuche ergeben eine Unsicherheit; es gibt nichts zu validieren.",
  noLinearUncertainty: ({ because }) =>
    `Das lineare Budget ergibt keine Unsicherheit, weil ${because === "coefficients" ? "alle Empfindlichkeitskoeffizienten an den Schätzwerten verschwinden" : "sich korrelierte Beiträge aufheben"}. Es ist nicht validiert; zu verwenden ist das Monte-Carlo-Intervall.`,
  undecided: ({ significantDigits, difference, tolerance, doubts, standardError }) =>
    `Die Versuche entscheiden nicht, ob das lineare Budget auf ${digits(significantDigits)} validiert ist: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens ${figure(difference)} ab, die numerische Toleranz ist δ = ${figure(tolerance)}, und ${list(doubts.map((doubt) => DOUBTS[doubt](standardError === null ? "" : figure(standardError))))}.`,
  validated: ({ significantDigits, difference, tolerance }) =>
    `Das lineare Budget ist auf ${digits(significantDigits)} validiert: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens ${figure(difference)} ab, was innerhalb der numerischen Toleranz δ = ${figure(tolerance)} liegt.`,
  notValidated: ({ significantDigits, difference, tolerance }) =>
    `Das lineare Budget ist auf ${digits(significantDigits)} nicht validiert: Ein Endpunkt seines Überdeckungsintervalls weicht von dem der Monte-Carlo-Methode um ${figure(difference)} ab, mehr als die numerische Toleranz δ = ${figure(tolerance)}.`,
  displaced: ({ direction }) =>
    `Die beiden Intervalle sind gleich breit, das Monte-Carlo-Intervall liegt aber an beiden Endpunkten ${direction === "higher" ? "höher" : "tiefer"}.`,
  oneEndpoint: ({ endpoint, direction }) =>
    `Der ${endpoint === "lower" ? "untere" : "obere"} Endpunkt der Monte-Carlo-Methode liegt weiter ${direction === "out" ? "außen" : "innen"} als der lineare; die anderen Endpunkte stimmen innerhalb der Streuung der Versuche überein.`,
  tooWide: ({ fraction, offCentre }) =>
    `Das lineare Intervall ist um ${part(fraction)} breiter als nötig${off(offCentre)}.`,
  tooNarrow: ({ fraction, offCentre }) => `Das lineare Intervall ist um ${part(fraction)} zu schmal${off(offCentre)}.`,
  factorNeeded: ({ factor }) =>
    `Mit dem Erweiterungsfaktor k = ${fixed(factor, 2)} wäre es so breit wie das Monte-Carlo-Intervall.`,
  validatedAt: ({ significantDigits }) => `Auf ${digits(significantDigits)} ist es validiert.`,
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

const off = (offCentre: boolean): string =>
  offCentre ? ", und das Monte-Carlo-Intervall liegt nicht symmetrisch zum Schätzwert" : "";

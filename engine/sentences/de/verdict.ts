import type { VerdictFact } from "../../validation/verdict-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { figure, fixed, percent } = speech;

const digits = (count: number): string => `${count} signifikante Stelle${count === 1 ? "" : "n"} von u(y)`;

export const verdict: MessageTable<VerdictFact> = {
  noLinearUncertainty: () =>
    "Das lineare Budget ergibt keine Unsicherheit, weil alle Empfindlichkeitskoeffizienten an den Schätzwerten verschwinden. Es ist nicht validiert; zu verwenden ist das Monte-Carlo-Intervall.",
  validated: ({ significantDigits, difference, tolerance }) =>
    `Das lineare Budget ist auf ${digits(significantDigits)} validiert: Die Endpunkte seines Überdeckungsintervalls weichen von denen der Monte-Carlo-Methode um höchstens ${figure(difference)} ab, was innerhalb der numerischen Toleranz δ = ${figure(tolerance)} liegt.`,
  notValidated: ({ significantDigits, difference, tolerance }) =>
    `Das lineare Budget ist auf ${digits(significantDigits)} nicht validiert: Ein Endpunkt seines Überdeckungsintervalls weicht von dem der Monte-Carlo-Methode um ${figure(difference)} ab, mehr als die numerische Toleranz δ = ${figure(tolerance)}.`,
  displaced: () => "Die beiden Intervalle sind gleich breit, liegen aber an verschiedenen Stellen.",
  tooWide: ({ fraction, offCentre }) =>
    `Das lineare Intervall ist um ${percent(fraction)} breiter als nötig${off(offCentre)}.`,
  tooNarrow: ({ fraction, offCentre }) =>
    `Das lineare Intervall ist um ${percent(fraction)} zu schmal${off(offCentre)}.`,
  factorNeeded: ({ factor }) =>
    `Mit dem Erweiterungsfaktor k = ${fixed(factor, 2)} wäre es so breit wie das Monte-Carlo-Intervall.`,
  validatedAt: ({ significantDigits }) => `Auf ${digits(significantDigits)} ist es validiert.`,
  provisional: () =>
    "Die Monte-Carlo-Werte sind noch nicht auf δ/5 stabil; ein Lauf mit mehr Versuchen kann dieses Urteil ändern.",
  firmUnsettled: () => "Die Monte-Carlo-Werte sind noch nicht auf δ/5 stabil; das Urteil hängt davon aber nicht ab.",
};

const off = (offCentre: boolean): string =>
  offCentre ? ", und das Monte-Carlo-Intervall liegt nicht symmetrisch zum Schätzwert" : "";
